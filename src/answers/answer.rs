//! From a line of a file of answers to the answer that it gives.

use crate::answers::families;
use crate::answers::line::{Line, given};
use crate::procedure::{Name, StepId};
use crate::run::{
    Answer, Ask, Before, Disposition, FasteningAnswer, FlowAnswer, FlowAsk, InterruptionAnswer, LateAnswer,
    Leave, ODOMETER, OccurrenceId, ParticularAnswer, ParticularAsk, PeopleAnswer, Prompt, SlipCheck, Spot,
    View,
};

/// What can be done in a file of answers, in the words of `do`.
const DEEDS: &str = "read, acknowledge, true, untrue, good, not good, done, again, accept, dispose, not applicable, later, correct, instrument, \
note, loose end, settle, carry out, disturbed, complete, work done, counts, invalid, one more, give up, begin anew, missed, early, stage set, left out, loosened, \
keep, make safe, not approved, deviation, take over, absent, re-inspect, suspend, stop, wait and close";

impl Line {
    /// The answer that this line gives to a prompt, or what it lacks.
    pub fn answer(&self, view: View<'_>, prompt: &Prompt) -> Result<Answer, String> {
        let Some(done) = &self.done_at else {
            return self.answer_now(view, prompt);
        };
        let reason = given("late", self.late.as_ref())?;
        let at = view.done_at(done).map_err(|refusal| refusal.to_string())?;
        let answer = self.answer_now(view, &view.prompt_of_late(prompt, &at))?;
        Ok(Answer::from(LateAnswer { answer: Box::new(answer), done: done.clone(), reason }))
    }

    /// Whether the line tells what the odometer shows, where the run asks for something else.
    pub fn tells_odometer(&self, asked: &str) -> bool {
        self.at == ODOMETER && self.act.is_none() && asked != ODOMETER
    }

    fn answer_now(&self, view: View<'_>, prompt: &Prompt) -> Result<Answer, String> {
        if let Some(text) = self.enter.as_ref().filter(|_| self.tells_odometer(&prompt.label(view))) {
            return Ok(Answer::Particular(ParticularAnswer::Odometer(text.clone())));
        }
        if let Ask::Interruption(ask) = &prompt.ask
            && let Some(answer) = self.between(ask)?
        {
            return Ok(Answer::Interruption(answer));
        }
        match (&self.act, &self.enter) {
            (Some(word), _) => self.acted(view, word),
            (None, Some(text)) => self.entered(view, &prompt.ask, text),
            (None, None) => Err("say what to `enter` or what to `do`".to_owned()),
        }
    }

    fn entered(&self, view: View<'_>, ask: &Ask, text: &str) -> Result<Answer, String> {
        let slip = if self.sure { SlipCheck::Sure } else { SlipCheck::Ask };
        Ok(match ask {
            Ask::Person(_) => Answer::Person(text.to_owned()),
            Ask::VehicleValue(_) => {
                Answer::Sourced { text: text.to_owned(), source: given("source", self.source.as_ref())? }
            }
            Ask::Release { .. } => Answer::Release { said: text.to_owned() },
            Ask::Pick(_) => Answer::Pick(step(view, text)?),
            Ask::Particular(ask) => Answer::Particular(self.taken(ask, text)?),
            Ask::Flow(FlowAsk::Choose { .. }) => Answer::Flow(FlowAnswer::Choose(step(view, text)?)),
            Ask::People(ask) => families::entered_by_people(ask, text)
                .unwrap_or_else(|| Answer::Typed { text: text.to_owned(), slip }),
            _ => Answer::Typed { text: text.to_owned(), slip },
        })
    }

    fn acted(&self, view: View<'_>, word: &str) -> Result<Answer, String> {
        let reason = || given("reason", self.reason.as_ref());
        let state = || given("state", self.state.as_ref());
        Ok(match word {
            "read" => Answer::AcceptBrief,
            "acknowledge" => Answer::Acknowledge,
            "true" => Answer::True,
            "untrue" => Answer::Untrue { state: state()? },
            "good" => Answer::Good,
            "not good" => Answer::NotGood { state: state()? },
            "done" => Answer::Done,
            "again" => Answer::Again { reason: reason()? },
            "accept" => Answer::Accept { disposition: self.disposition()?, reason: reason()? },
            "dispose" => Answer::Dispose { disposition: self.disposition()?, reason: reason()? },
            "not applicable" => Answer::NotApplicable { reason: reason()? },
            "later" => {
                let point = given("before", self.before.as_ref())?;
                match Before::named(view.book, &point) {
                    Some(Before::Step(before)) => Answer::Defer { before, reason: reason()? },
                    Some(Before::EndOf(section)) => {
                        let reason = reason()?;
                        Answer::Interruption(InterruptionAnswer::DeferToEnd { section, reason })
                    }
                    None => return Err(format!("there is no step, hold point or section `{point}`")),
                }
            }
            "correct" if self.position.is_some() => Answer::Fastening(FasteningAnswer::Correct {
                at: self.spot(view)?,
                entry: None,
                text: given("enter", self.enter.as_ref())?,
                reason: reason()?,
            }),
            "correct" => self.correction(view)?,
            "instrument" => Answer::Particular(ParticularAnswer::Instrument {
                tool: Name::from(given("tool", self.tool.as_ref())?),
                identity: given("enter", self.enter.as_ref())?,
                due: given("due", self.due.as_ref())?,
            }),
            "note" => Answer::Note(reason()?),
            "loose end" | "settle" | "carry out" => families::of_loose_end(self, view, word)?,
            "disturbed" => Answer::Disturbed { what: reason()?, hold: self.hold.clone().map(Name::from) },
            "suspend" => {
                let first = self.first.clone();
                Answer::Leave { how: Leave::Suspend, reason: reason()?, state: state()?, first }
            }
            "stop" => Answer::Leave { how: Leave::Stop, reason: reason()?, state: state()?, first: None },
            "deviation" => {
                let declared = self.declared()?;
                Answer::Interruption(InterruptionAnswer::Declare { declared, reason: reason()? })
            }
            "close" => Answer::Close,
            "complete" => Answer::Flow(FlowAnswer::Complete),
            "work done" => Answer::Flow(FlowAnswer::WorkDone),
            "counts" => Answer::Flow(FlowAnswer::Counts),
            "invalid" => Answer::Flow(FlowAnswer::Invalid { reason: reason()? }),
            "one more" => Answer::Flow(FlowAnswer::Extend { reason: reason()? }),
            "give up" => {
                let disposition = self.disposition()?;
                Answer::Flow(FlowAnswer::GiveUp { disposition, reason: reason()? })
            }
            "begin anew" => Answer::Flow(FlowAnswer::Restart { reason: reason()? }),
            "missed" => Answer::Flow(FlowAnswer::Missed),
            "early" => Answer::Flow(FlowAnswer::Early),
            "keep" | "take over" | "absent" | "re-inspect" => families::acted_by_people(self, word)?,
            "stage set" => Answer::Fastening(FasteningAnswer::StageSet),
            "left out" => Answer::Fastening(FasteningAnswer::Skip { reason: reason()? }),
            "loosened" => Answer::Fastening(FasteningAnswer::Loosened {
                group: Name::from(given("group", self.group.as_ref())?),
                position: self.position.clone(),
                reason: reason()?,
            }),
            other => {
                return Err(format!("`{other}` is nothing that can be done; {DEEDS} can"));
            }
        })
    }

    /// An answer on how a reading is taken.
    fn taken(&self, ask: &ParticularAsk, text: &str) -> Result<ParticularAnswer, String> {
        Ok(match ask {
            ParticularAsk::Instrument(tool) | ParticularAsk::Overdue(tool) => ParticularAnswer::Instrument {
                tool: tool.clone(),
                identity: text.to_owned(),
                due: given("due", self.due.as_ref())?,
            },
            ParticularAsk::Critical(_) => ParticularAnswer::Typed(text.to_owned()),
        })
    }

    /// A correction of a reading, of a value of the vehicle, or of the odometer.
    fn correction(&self, view: View<'_>) -> Result<Answer, String> {
        let text = given("enter", self.enter.as_ref())?;
        let reason = given("reason", self.reason.as_ref())?;
        if let Some(role) = &self.role {
            let role = Name::from(role);
            return Ok(Answer::People(PeopleAnswer::CorrectName { role, person: text, reason }));
        }
        let name = Name::from(given("reading", self.reading.as_ref())?);
        let procedure = &view.book.procedure;
        if procedure.reading(&name).is_some() {
            let entry = self.pass.as_ref().map(|pass| entry_in(view, &name, pass)).transpose()?;
            return Ok(Answer::Correct { reading: name, entry, text, reason });
        }
        Ok(Answer::Particular(match name.as_str() {
            ODOMETER if !procedure.vehicle().contains(&name) => {
                ParticularAnswer::CorrectOdometer { text, reason }
            }
            _ => {
                let source = given("source", self.source.as_ref())?;
                ParticularAnswer::CorrectVehicleValue { name, text, source, reason }
            }
        }))
    }

    fn spot(&self, view: View<'_>) -> Result<Spot, String> {
        let group = Name::from(given("group", self.group.as_ref())?);
        let stage = given("stage", self.stage.as_ref())?;
        let declared = view.book.procedure.fastener_group(&group);
        let mut stages = declared.into_iter().flat_map(|declared| &declared.stages);
        let place = stages.position(|declared| declared.what == stage);
        let place = place.ok_or_else(|| format!("there is no stage `{stage}` of `{group}`"))?;
        Ok(Spot { group, stage: place, position: given("position", self.position.as_ref())? })
    }

    pub(super) fn disposition(&self) -> Result<Disposition, String> {
        let words = given("disposition", self.disposition.as_ref())?;
        Disposition::from_words(&words)
            .ok_or_else(|| format!("`{words}` is no disposition: rework, repair, use as is, reject"))
    }
}

/// The newest entry of a reading in a pass.
fn entry_in(view: View<'_>, reading: &Name, pass: &str) -> Result<u64, String> {
    let wanted: Vec<&str> = pass.split('/').map(str::trim).collect();
    let is_meant = |at: &OccurrenceId| {
        let passes = view.inside(*at).passes_around(reading);
        let inner = passes.len().checked_sub(wanted.len()).and_then(|skip| passes.get(skip..));
        inner.is_some_and(|inner| {
            let mut pairs = inner.iter().zip(&wanted);
            pairs.all(|((number, item), wanted)| number == wanted || item.as_deref() == Some(*wanted))
        })
    };
    let entries = view.state.attempts_at(reading).filter(|(at, _)| is_meant(at));
    let newest = entries.filter_map(|(_, attempts)| attempts.latest()).map(|taken| taken.place).max();
    newest.ok_or_else(|| format!("`{reading}` was not entered in pass {pass}"))
}

fn step(view: View<'_>, number: &str) -> Result<StepId, String> {
    let found = view.book.procedure.step_numbered(number);
    found.map(|step| step.id).ok_or_else(|| format!("there is no step {number}"))
}
