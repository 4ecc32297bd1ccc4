//! Asking one question and hearing its answer.

use std::rc::Rc;
use std::time::Duration;

use jiff::ZonedDateTime;

use super::keys::{self, OTHER, STOP, WHY};
use super::{Ended, Turn, correction, look, other, words};
use crate::procedure::{Name, ReadingKind, StepId};
use crate::run::{Answer, Ask, FlowAnswer, Leave, OccurrenceId, Prompt, SlipCheck, View};
use crate::terminal::{Heard, KeyHint, Ui, Wait};

/// A question about to be asked.
pub(super) struct Question<'talk> {
    pub(super) ui: &'talk mut dyn Ui,
    /// The run from where it is asked: a name means the nearest.
    pub(super) view: View<'talk>,
    pub(super) prompt: &'talk Prompt,
    pub(super) clock: &'talk dyn Fn() -> ZonedDateTime,
    pub(super) ticks: &'talk Rc<dyn Fn() -> Duration>,
}

impl Question<'_> {
    /// Asks, until there is an answer or something to show.
    pub(super) fn turn(mut self) -> Turn {
        match self.ask() {
            Ok(answer) => Turn::answer(answer),
            Err(Turn::Late) => super::lateness::ask(&mut self).map_or_else(|turn| turn, Turn::answer),
            Err(Turn::Stop) => {
                other::leave(self.ui, self.view, Leave::Stop).map_or_else(|turn| turn, Turn::answer)
            }
            Err(turn) => turn,
        }
    }

    pub(super) fn ask(&mut self) -> Result<Answer, Turn> {
        match &self.prompt.ask {
            Ask::Brief => self.one_key("Read it? ", ('g', "go on"), Answer::AcceptBrief),
            Ask::Person(role) => self.person(role),
            Ask::Odometer => {
                let unit = self.view.book.odometer_unit();
                let text = self.typed(&format!("Odometer, in {} or with its unit: ", unit.symbol()))?;
                Ok(Answer::Typed { text, slip: SlipCheck::Ask })
            }
            Ask::VehicleValue(name) => self.vehicle_value(name),
            Ask::Acknowledge(_) => {
                self.one_key("Read and understood? ", ('a', "acknowledge"), Answer::Acknowledge)
            }
            Ask::Confirm { .. } => self.confirm(),
            Ask::Release { role, .. } => self.release(role),
            Ask::Reading(name) => self.reading(name),
            Ask::Failed(_) => self.failed(),
            Ask::Pick(steps) => self.pick(steps, Answer::Pick),
            Ask::Wait { wait, until } => self.wait(wait, until),
            Ask::Late { wait, .. } => self.late(wait),
            Ask::Do => self.do_step(),
            Ask::Flow(ask) => super::flow::ask(self, ask),
            Ask::People(ask) => super::people::ask(self, ask),
            Ask::Fastening(ask) => super::fastening::ask(self, ask),
            Ask::Particular(ask) => super::particular::ask(self, ask),
            Ask::Interruption(ask) => super::interruption::ask(self, ask),
            Ask::Dispose(_) => {
                let (disposition, reason) = keys::disposition(self.ui)?;
                Ok(Answer::Dispose { disposition, reason })
            }
            Ask::Close => {
                self.one_key("Everything is done. ", ('c', "close and seal the run"), Answer::Close)
            }
            Ask::Resting => Err(Turn::End(Ended::Rests)),
            Ask::Finished => Err(Turn::End(Ended::Closed)),
        }
    }

    fn person(&mut self, role: &Name) -> Result<Answer, Turn> {
        let what = self.view.book.procedure.what(role).unwrap_or_default();
        let name = self.typed(&format!("Name of the {role} ({what}): "))?;
        Ok(Answer::Person(name))
    }

    fn vehicle_value(&mut self, name: &Name) -> Result<Answer, Turn> {
        let declared = self.view.book.procedure.vehicle().get(name);
        let (what, find) = declared.map_or(("", ""), |value| (value.what.as_str(), value.find.as_str()));
        let text = self.typed(&format!("{what} (find it in: {find}): "))?;
        let source = keys::inner_line(self.ui, "Where was it found (document, page)? ")?;
        Ok(Answer::Sourced { text, source })
    }

    fn confirm(&mut self) -> Result<Answer, Turn> {
        let keys = keys::with_common(&[('y', "it is so"), ('n', "it is not so")]);
        match self.key("", &keys)? {
            'y' => Ok(Answer::True),
            _ => Ok(Answer::Untrue { state: keys::inner_line(self.ui, "How is it? ")? }),
        }
    }

    fn release(&mut self, role: &Name) -> Result<Answer, Turn> {
        let person = self.view.state.people.get(role).map(String::as_str).unwrap_or_default();
        let said = self.typed(&format!("Released by {person} ({role}); name or initials: "))?;
        Ok(Answer::Release { said })
    }

    pub(super) fn reading(&mut self, name: &Name) -> Result<Answer, Turn> {
        let reading = self.view.book.procedure.reading(name);
        let Some(reading) = reading else { return Err(Turn::Again) };
        let text = match &reading.kind {
            ReadingKind::Choice { choices, .. } => self.choice(&reading.offered(choices))?,
            _ if reading.stopwatch => super::stopwatch::ask(self, reading)?,
            _ => self.typed(&format!("{}, {}: ", reading.what, words::form_or_outcome(reading)))?,
        };
        Ok(Answer::Typed { text, slip: SlipCheck::Ask })
    }

    /// Up to nine choices have a key each, so that one press answers and the other keys stay at hand.
    pub(super) fn choice(&mut self, choices: &[String]) -> Result<String, Turn> {
        let digits: Vec<(char, &str)> = ('1'..='9').zip(choices.iter().map(String::as_str)).collect();
        if choices.len() > digits.len() {
            let place = keys::inner_choice(self.ui, "Choose", choices)?;
            return Ok(choices[place.min(choices.len() - 1)].clone());
        }
        let key = self.key("", &keys::with_common(&digits))?;
        Ok(digits
            .iter()
            .find(|(digit, _)| *digit == key)
            .map(|(_, choice)| (*choice).to_owned())
            .unwrap_or_default())
    }

    /// A key; those that deviate are not offered at a hold point, where nothing is gone on with or left out.
    pub(super) fn key_or_deviate(
        &mut self,
        own: &[(char, &str)],
        deviate: &[(char, &str)],
    ) -> Result<char, Turn> {
        let step = self.prompt.step.and_then(|step| self.view.book.procedure.step(step));
        let is_at_hold = step.is_some_and(|step| step.hold.is_some());
        let deviate = deviate.iter().filter(|_| !is_at_hold);
        let keys: Vec<_> = own.iter().chain(deviate).copied().collect();
        self.key("", &keys::with_common(&keys))
    }

    fn failed(&mut self) -> Result<Answer, Turn> {
        let keys = [('t', "take it again"), ('c', "correct a wrong entry")];
        match self.key_or_deviate(&keys, &[('g', "go on with a deviation")])? {
            't' => Ok(Answer::Again { reason: keys::inner_line(self.ui, "What was done about it? ")? }),
            'c' => correction::correct(self.ui, self.view),
            _ => self.accept(),
        }
    }

    fn late(&mut self, wait: &Name) -> Result<Answer, Turn> {
        let missed =
            self.view.book.has_path_for_missed(wait).then_some(('p', "take the path for a missed time"));
        let own: Vec<(char, &str)> = missed.into_iter().chain([('g', "go on with a deviation")]).collect();
        match self.key("The time is over. ", &keys::with_common(&own))? {
            'p' => Ok(Answer::Flow(FlowAnswer::Missed)),
            _ => self.accept(),
        }
    }

    pub(super) fn accept(&mut self) -> Result<Answer, Turn> {
        let (disposition, reason) = keys::disposition(self.ui)?;
        Ok(Answer::Accept { disposition, reason })
    }

    /// The key of a step is the last digit of its number, so that no other key stands for it once some are done.
    pub(super) fn pick(
        &mut self,
        steps: &[StepId],
        answer: impl Fn(StepId) -> Answer,
    ) -> Result<Answer, Turn> {
        let procedure = &self.view.book.procedure;
        let numbers: Vec<&str> =
            steps.iter().filter_map(|step| procedure.step(*step)).map(|step| step.number.as_str()).collect();
        let Some(keyed) = by_last_digit(&numbers) else {
            let numbers: Vec<String> = numbers.iter().map(|number| (*number).to_owned()).collect();
            return Ok(answer(steps[keys::inner_choice(self.ui, "Choose", &numbers)?]));
        };
        let key = self.key("", &keys::with_common(&keyed))?;
        let place = keyed.iter().position(|(digit, _)| *digit == key).unwrap_or_default();
        Ok(answer(steps[place]))
    }

    fn do_step(&mut self) -> Result<Answer, Turn> {
        let keys = keys::with_common(&[('d', "done"), ('l', "later"), ('n', "not applicable")]);
        match self.key("", &keys)? {
            'd' => Ok(Answer::Done),
            'l' => other::later(self.ui, self.view),
            _ => other::not_applicable(self.ui),
        }
    }

    fn wait(&mut self, name: &Name, until: &ZonedDateTime) -> Result<Answer, Turn> {
        let label = self.view.book.procedure.called(name);
        let began = self.view.wait_began(name).unwrap_or_else(|| self.view.now.clone());
        let over_at = words::clock(until, self.view.now);
        let wait = Wait {
            label,
            total: between(&began, until),
            elapsed: &|| between(&began, &(self.clock)()),
            over_at: &over_at,
        };
        match self.ui.wait(&wait) {
            Ok(Heard::Elapsed) => Err(Turn::Again),
            Ok(Heard::Key(_) | Heard::Text(_) | Heard::Chosen(_) | Heard::Timed(_)) => self.while_waiting(),
            Ok(Heard::Interrupt) => Err(Turn::End(Ended::Interrupted)),
            Ok(Heard::Gone) => Err(Turn::End(Ended::Gone)),
            Err(error) => Err(Turn::Broken(error)),
        }
    }

    fn while_waiting(&mut self) -> Result<Answer, Turn> {
        let keys = keys::with_common(&[('w', "go on waiting")]);
        self.key("The clock runs on. ", &keys)?;
        Err(Turn::Again)
    }

    pub(super) fn one_key(
        &mut self,
        prompt: &str,
        own: (char, &str),
        answer: Answer,
    ) -> Result<Answer, Turn> {
        self.key(prompt, &keys::with_common(&[own]))?;
        Ok(answer)
    }

    /// A key of this question; the keys that are good everywhere are followed up here.
    pub(super) fn key(&mut self, prompt: &str, keys: &[KeyHint]) -> Result<char, Turn> {
        match keys::key(self.ui, prompt, keys)? {
            STOP => Err(Turn::Stop),
            WHY => Err(Turn::Show(look::why(self.view, self.prompt))),
            OTHER => self.other(),
            key => Ok(key),
        }
    }

    /// A typed line. `?` and `!` alone are keys here too, and an empty line says what else can be done.
    pub(super) fn typed(&mut self, prompt: &str) -> Result<String, Turn> {
        let text = keys::line(self.ui, prompt)?;
        match text.trim() {
            "?" => Err(Turn::Show(look::why(self.view, self.prompt))),
            "!" => Err(Turn::Stop),
            "" => self.other(),
            _ => Ok(text),
        }
    }

    fn other<T>(&mut self) -> Result<T, Turn> {
        let run = self.view.inside(OccurrenceId::RUN);
        Err(other::other(self.ui, run, self.prompt).map_or_else(|turn| turn, Turn::answer))
    }
}

fn between(from: &ZonedDateTime, to: &ZonedDateTime) -> Duration {
    Duration::try_from(from.duration_until(to)).unwrap_or_default()
}

/// Each number with its last digit as its key; `None` where two would have the same, or one goes beyond nine.
fn by_last_digit<'n>(numbers: &[&'n str]) -> Option<Vec<(char, &'n str)>> {
    let key = |number: &&'n str| {
        let last = number.rsplit('.').next()?;
        let digit = last.chars().next().filter(|_| last.len() == 1)?;
        Some((digit, *number))
    };
    let keyed: Vec<_> = numbers.iter().map(key).collect::<Option<_>>()?;
    let different: std::collections::BTreeSet<char> = keyed.iter().map(|(digit, _)| *digit).collect();
    (different.len() == keyed.len()).then_some(keyed)
}
