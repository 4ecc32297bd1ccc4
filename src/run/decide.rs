//! From an answer to an event, or a refusal. Pure: nothing is changed here.

use jiff::ZonedDateTime;

use crate::procedure::Name;
use crate::run::answered::Leave;
use crate::run::book::Book;
use crate::run::event::Event;
use crate::run::fastening::decide as fastening;
use crate::run::flow::decide as flow;
use crate::run::flow::event::{FlowAsk, FlowEvent};
use crate::run::particulars::decide as particular;
use crate::run::particulars::event::{ParticularAnswer, ParticularAsk};
use crate::run::people::decide as people;
use crate::run::prompt::{Answer, Ask, Prompt};
use crate::run::readings::{entry, lateness};
use crate::run::refusal::Refusal;
use crate::run::sitting::decide as sitting;
use crate::run::stamp::Start;
use crate::run::state::{Sitting, State};
use crate::run::step::leave_out;
use crate::run::typed::{filled, names, same_person};
use crate::run::view::View;
use crate::run::work::part::Address;

/// What comes into a run from outside.
#[derive(Clone, Debug, PartialEq)]
pub enum Input {
    /// It begins.
    Start(Start),
    /// It is taken up again, by another sitting or after the end of a process.
    Resume,
    /// An answer to the question that it stands at, or something that can be said at any time.
    Answer(Answer),
}

/// What an input makes of a run: the event to record, or why it is refused. Never both, and never a change.
pub fn decide(book: &Book, state: &State, input: Input, now: &ZonedDateTime) -> Result<Decided, Refusal> {
    let view = View::new(book, state, now);
    match input {
        Input::Start(start) if state.start.is_none() => Ok(Decided::of_run(Event::Started(start))),
        Input::Resume if state.start.is_some() && state.closed.is_none() => {
            Ok(Decided::of_run(Event::Resumed { look_again: view.look_again() }))
        }
        Input::Start(_) | Input::Resume => Err(Refusal::NotWorking),
        Input::Answer(answer) => {
            let prompt = view.next();
            let view = view.inside(prompt.within);
            let event = view.decide_answer(&prompt, answer)?;
            let place = view.place_for(&event, &prompt);
            Ok(Decided { event, place })
        }
    }
}

/// What is recorded of an input: what happened, and at which occurrence.
#[derive(Clone, Debug, PartialEq)]
pub struct Decided {
    /// What happened.
    pub event: Event,
    /// The occurrence that it belongs to; none where it belongs to the run as a whole.
    pub place: Option<Address>,
}

impl Decided {
    fn of_run(event: Event) -> Self {
        Self { event, place: None }
    }
}

impl View<'_> {
    fn decide_answer(self, prompt: &Prompt, answer: Answer) -> Result<Event, Refusal> {
        if self.state.start.is_none() || self.state.closed.is_some() || self.rests_from(prompt, &answer) {
            return Err(Refusal::NotWorking);
        }
        self.only_after_turnover(&answer)?;
        match answer {
            Answer::Note(text) => Ok(Event::Noted(filled("a note", text)?)),
            Answer::Disturbed(what) => Ok(Event::Disturbed(filled("what was disturbed", what)?)),
            Answer::Leave { how, reason, state, first } => Ok(Event::Left {
                how,
                reason: filled("the reason", reason)?,
                state: filled("the state that things are left in", state)?,
                first: first.filter(|_| how == Leave::Suspend).and_then(|first| filled("it", first).ok()),
            }),
            Answer::Correct { reading, entry, text, reason } => {
                entry::correct(self, reading, entry, &text, reason)
            }
            Answer::Flow(answer) => flow::decide(self, prompt, answer),
            Answer::People(answer) => people::decide(self, prompt, answer),
            Answer::Fastening(answer) => fastening::decide(self, prompt, answer),
            Answer::Particular(answer) => particular::decide(self, prompt, answer),
            Answer::Late(late) => lateness::decide(self, prompt, late),
            Answer::Interruption(answer) => sitting::decide(self, prompt, answer),
            other => self.decide_prompted(prompt, other),
        }
    }

    /// A run that rests takes no answer; one that is being left takes only what belongs to leaving it.
    fn rests_from(self, prompt: &Prompt, answer: &Answer) -> bool {
        self.state.sitting == Sitting::Resting
            && (matches!(answer, Answer::Flow(_)) || prompt.ask == Ask::Resting)
    }

    pub(super) fn decide_prompted(self, prompt: &Prompt, answer: Answer) -> Result<Event, Refusal> {
        let answer = match (&prompt.ask, answer) {
            (Ask::Fastening(_), answer) => match fastening::meant(answer) {
                Ok(meant) => return fastening::decide(self, prompt, meant),
                Err(other) => other,
            },
            (_, answer) => answer,
        };
        match (prompt.ask.clone(), answer) {
            (Ask::Brief, Answer::AcceptBrief) => Ok(Event::BriefAccepted),
            (Ask::Person(role), Answer::Person(name)) => {
                let person = filled("a name", name)?;
                self.two_people(&role, &person)?;
                Ok(Event::PersonNamed { role, person })
            }
            (Ask::Odometer, Answer::Typed { text, .. }) => entry::odometer(self, &text),
            (Ask::VehicleValue(name), Answer::Sourced { text, source }) => {
                entry::vehicle_value(self, name, &text, source)
            }
            (Ask::Reading(name), Answer::Typed { text, slip }) => entry::reading(self, name, &text, slip),
            (Ask::Failed(name), answer) => self.decide_failed(prompt, name, answer),
            (Ask::Confirm { hold, item }, Answer::True) => Ok(Event::Confirmed { hold, item }),
            (Ask::Confirm { hold, item }, Answer::Untrue { state }) => {
                Ok(Event::Contradicted { hold, item, state: filled("how it is", state)? })
            }
            (Ask::Release { hold, role }, Answer::Release { said }) => {
                self.decide_release(prompt, hold, role, &said)
            }
            (Ask::Dispose(deviation), Answer::Dispose { disposition, reason }) => {
                Ok(Event::Disposed { deviation, disposition, reason: filled("the reason", reason)? })
            }
            (Ask::Particular(ParticularAsk::Overdue(_)), Answer::Accept { disposition, reason }) => {
                particular::decide(self, prompt, ParticularAnswer::AcceptOverdue { disposition, reason })
            }
            (Ask::Close, Answer::Close) => self.decide_close(),
            (Ask::People(ask), answer) => people::decide_common(self, prompt, &ask, answer),
            (ask, answer) => self.decide_at_step(prompt, ask, answer),
        }
    }

    pub(super) fn decide_at_step(self, prompt: &Prompt, ask: Ask, answer: Answer) -> Result<Event, Refusal> {
        match (ask, prompt.step, answer) {
            (Ask::Acknowledge(hazard), Some(step), Answer::Acknowledge) => {
                Ok(Event::Acknowledged { step, hazard })
            }
            (Ask::Do, Some(step), Answer::Done) => Ok(Event::Done(step)),
            (Ask::Pick(steps), _, Answer::Pick(step)) if steps.contains(&step) => Ok(Event::Picked(step)),
            (Ask::Pick(_), _, Answer::Pick(_)) => Err(Refusal::NotOffered),
            (Ask::Flow(FlowAsk::Disagrees(step)), _, Answer::Accept { disposition, reason }) => {
                let reason = filled("the reason", reason)?;
                Ok(Event::Flow(FlowEvent::Settled { step, disposition, reason }))
            }
            (Ask::Late { wait, .. }, Some(step), Answer::Accept { disposition, reason }) => {
                Ok(Event::LateAccepted { step, wait, disposition, reason: filled("the reason", reason)? })
            }
            (_, Some(step), Answer::NotApplicable { reason }) => {
                leave_out::not_applicable(self, step, filled("the reason", reason)?)
            }
            (_, Some(step), Answer::Defer { before, reason }) => {
                leave_out::defer(self, step, before, filled("the reason", reason)?)
            }
            (ask, _, _) => Err(Refusal::NotAsked { asked: Box::new(ask) }),
        }
    }

    fn decide_failed(self, prompt: &Prompt, name: Name, answer: Answer) -> Result<Event, Refusal> {
        let step = prompt.step.and_then(|step| self.book.procedure.step(step));
        match answer {
            Answer::Again { reason } => {
                let readings = self.not_locked(&name)?;
                Ok(Event::TakenAgain { readings, reason: filled("what was done about it", reason)? })
            }
            Answer::Accept { .. } if step.is_some_and(|step| step.hold.is_some()) => {
                Err(Refusal::HoldPoint("gone on with when it fails"))
            }
            Answer::Accept { .. } if self.is_beyond(&name) => {
                let reading = self.book.procedure.called(&name).to_owned();
                Err(Refusal::NeverPassed { reading })
            }
            Answer::Accept { disposition, reason } => {
                Ok(Event::Accepted { name, disposition, reason: filled("the reason", reason)? })
            }
            _ => Err(Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) }),
        }
    }

    /// The readings behind a result, but for those as found that stay as they are.
    fn not_locked(self, name: &Name) -> Result<Vec<Name>, Refusal> {
        let (locked, free): (Vec<Name>, Vec<Name>) = self
            .book
            .behind(name)
            .into_iter()
            .filter(|reading| self.entered(reading).is_some())
            .partition(|reading| self.is_locked(reading) && !self.is_beyond(reading));
        match locked.first() {
            Some(reading) if free.is_empty() => {
                let reading = self.book.procedure.called(reading).to_owned();
                Err(Refusal::AsFoundLocked { reading })
            }
            _ => Ok(free),
        }
    }

    fn decide_release(self, prompt: &Prompt, hold: Name, role: Name, said: &str) -> Result<Event, Refusal> {
        let person = self.state.people.get(&role).cloned().unwrap_or_default();
        if !names(said, &person) {
            return Err(Refusal::NotTheReleaser {
                said: said.trim().to_owned(),
                person,
                role: role.to_string(),
            });
        }
        let open = prompt.step.and_then(|step| self.open_verification(&hold, step)).unwrap_or_default();
        let mut others =
            open.signed.iter().filter_map(|(other, stamp)| self.state.people.at(other, stamp.seq));
        if others.any(|other| same_person(other, &person)) {
            return Err(Refusal::SamePerson { person });
        }
        Ok(Event::Released { hold, role })
    }

    fn decide_close(self) -> Result<Event, Refusal> {
        let open = self.open_items();
        if open.is_empty() {
            return Ok(Event::Closed);
        }
        Err(Refusal::Open(open.iter().map(ToString::to_string).collect()))
    }
}
