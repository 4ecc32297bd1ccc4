//! What each question asks, and what becomes of its answer.

use std::time::Duration;

use jiff::ZonedDateTime;

use super::question::Question;
use super::{Ended, Turn, correction, keys, look, other, reading, refused, words};
use crate::procedure::Name;
use crate::run::{
    Answer, Ask, FlowAnswer, LateAnswer, Leave, OccurrenceId, ParticularAnswer, SlipCheck, USUAL,
};
use crate::terminal::{Heard, KeyHint, Wait};

impl Question<'_> {
    /// Asks, until there is an answer or something to show; what is asked for in its place is followed up.
    pub(super) fn turn(mut self) -> Turn {
        let mut heard = self.ask();
        loop {
            heard = match heard {
                Ok(answer) => return Turn::answer(answer),
                Err(Turn::Why) => return Turn::Show(look::why(self.view, self.prompt)),
                Err(Turn::Other) => self.other(),
                Err(Turn::Late) => self.enter_late(),
                Err(Turn::Stop) => other::leave(self.ui, self.view, Leave::Stop),
                Err(turn) => return turn,
            }
        }
    }

    fn ask(&mut self) -> Result<Answer, Turn> {
        match &self.prompt.ask {
            Ask::Brief => self.one_key("Read it? ", ('y', "yes"), Answer::AcceptBrief),
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
            Ask::Reading(name) => reading::ask(self, name),
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
            Ask::LooseEnd(end) => super::loose::ask(self, end),
            Ask::Dispose(_) => {
                let (disposition, reason) = keys::disposition(self.ui)?;
                Ok(Answer::Dispose { disposition, reason })
            }
            Ask::Close => {
                self.one_key("Everything is done. ", ('e', "end: close and seal the run"), Answer::Close)
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
        let unit = declared.and_then(|value| value.unit.as_ref());
        let form = unit.map(|unit| format!(", {}", words::in_unit(unit, self.units))).unwrap_or_default();
        let text = self.typed(&format!("{what} (find it in: {find}){form}: "))?;
        let is_usual = text.trim() == USUAL && declared.is_some_and(|value| value.usual.is_some());
        let question = if is_usual {
            "Taken as common practice by, name or initials: "
        } else {
            "Where was it found (document, page)? "
        };
        let source = keys::inner_line(self.ui, question)?;
        Ok(Answer::Sourced { text, source })
    }

    fn confirm(&mut self) -> Result<Answer, Turn> {
        let keys = keys::with_common(&[('y', "yes"), ('n', "no")]);
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

    fn failed(&mut self) -> Result<Answer, Turn> {
        let keys = [('t', "take it again"), ('c', "correct a wrong entry")];
        match self.key_or_deviate(&keys, &[('g', "go on with a deviation")])? {
            't' => Ok(Answer::Again { reason: keys::inner_line(self.ui, "What was done about it? ")? }),
            'c' => correction::correct(self.ui, self.view, self.prompt),
            _ => self.accept(),
        }
    }

    fn late(&mut self, wait: &Name) -> Result<Answer, Turn> {
        let missed =
            self.view.book.has_path_for_missed(wait).then_some(('p', "take the path for a missed time"));
        let own: Vec<(char, &str)> = missed.into_iter().collect();
        match self.key_or_deviate(&own, &[('g', "go on with a deviation")])? {
            'p' => Ok(Answer::Flow(FlowAnswer::Missed)),
            _ => self.accept(),
        }
    }

    fn do_step(&mut self) -> Result<Answer, Turn> {
        self.one_key("", ('d', "done"), Answer::Done)
    }

    fn wait(&mut self, name: &Name, until: &ZonedDateTime) -> Result<Answer, Turn> {
        let label = self.view.book.procedure.called(name);
        let began = self.view.wait_began(name).unwrap_or_else(|| self.view.now.clone());
        let running = self.view.running_waits().into_iter().find(|wait| wait.name == *name);
        let latest = running.and_then(|wait| wait.latest);
        let latest =
            latest.map(|latest| format!(", at the latest until {}", words::clock(&latest, self.view.now)));
        let over_at = format!("{}{}", words::clock(until, self.view.now), latest.unwrap_or_default());
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
        let keys: Vec<KeyHint> =
            [KeyHint::back("go on waiting")].into_iter().chain(keys::with_common(&[])).collect();
        self.key("The clock runs on. ", &keys)?;
        Err(Turn::Again)
    }

    /// What can be done at any time, chosen from its list.
    fn other(&mut self) -> Result<Answer, Turn> {
        let run = self.view.inside(OccurrenceId::RUN);
        other::other(self.ui, run, self.prompt)
    }

    /// What was done before: when it was done, why it is entered late, and the answer itself.
    fn enter_late(&mut self) -> Result<Answer, Turn> {
        let done = keys::inner_line(self.ui, "When was it really done (time of today, or date and time)? ")?;
        let at = self.view.done_at(&done).map_err(|refusal| Turn::Show(refused(&refusal)))?;
        let reason = keys::inner_line(self.ui, "Why is it entered late (\"from paper\")? ")?;
        let prompt = self.view.prompt_of_late(self.prompt, &at);
        let (view, clock, ticks, units) = (self.view, self.clock, self.ticks, self.units);
        let asked =
            Question { ui: &mut *self.ui, view, prompt: &prompt, is_named: false, clock, ticks, units };
        let answer = match &prompt.ask {
            Ask::Do => Answer::Done,
            _ => match asked.turn() {
                Turn::Answer(answer) => *answer,
                other => return Err(other),
            },
        };
        match answer {
            answer @ (Answer::Done
            | Answer::Typed { .. }
            | Answer::Fastening(_)
            | Answer::Particular(ParticularAnswer::File(_))) => {
                Ok(Answer::from(LateAnswer { answer: Box::new(answer), done, reason }))
            }
            other => Ok(other),
        }
    }
}

fn between(from: &ZonedDateTime, to: &ZonedDateTime) -> Duration {
    Duration::try_from(from.duration_until(to)).unwrap_or_default()
}
