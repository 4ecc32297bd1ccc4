//! From an answer to an event, by what is asked.

use crate::procedure::Name;
use crate::run::event::Event;
use crate::run::fastening::decide as fastening;
use crate::run::flow::decide as flow;
use crate::run::flow::event::{FlowAnswer, FlowEvent};
use crate::run::particulars::decide as particular;
use crate::run::particulars::event::ParticularAnswer;
use crate::run::people::decide as people;
use crate::run::prompt::{Answer, Ask, Prompt};
use crate::run::readings::{entry, kept_file};
use crate::run::refusal::Refusal;
use crate::run::sitting::decide as sitting;
use crate::run::typed::{filled, names, same_person};
use crate::run::view::View;

/// What an answer makes of the question that is asked; a refusal where it is no answer to it.
pub(super) fn decide(view: View<'_>, prompt: &Prompt, answer: Answer) -> Result<Event, Refusal> {
    match &prompt.ask {
        Ask::Flow(ask) => flow::asked(view, ask, answer).map(Event::Flow),
        Ask::People(ask) => people::asked(view, prompt, ask, answer),
        Ask::Fastening(ask) => fastening::asked(view, prompt, ask, answer).map(Event::Fastening),
        Ask::Particular(ask) => particular::asked(view, prompt, ask, answer).map(Event::Particular),
        Ask::Interruption(ask) => sitting::asked(view, ask, answer).map(Event::Interruption),
        Ask::Failed(name) => view.decide_failed(prompt, name.clone(), answer),
        ask => view.decide_own(prompt, ask.clone(), answer),
    }
}

impl View<'_> {
    fn decide_own(self, prompt: &Prompt, ask: Ask, answer: Answer) -> Result<Event, Refusal> {
        match (ask, prompt.step, answer) {
            (Ask::Brief, _, Answer::AcceptBrief) => Ok(Event::BriefAccepted),
            (Ask::Person(role), _, Answer::Person(name)) => {
                let person = filled("a name", name)?;
                self.two_people(&role, &person)?;
                Ok(Event::PersonNamed { role, person })
            }
            (Ask::Odometer, _, Answer::Typed { text, .. }) => entry::odometer(self, &text),
            (Ask::VehicleValue(name), _, Answer::Sourced { text, source }) => {
                entry::vehicle_value(self, name, &text, source)
            }
            (Ask::Reading(name), _, Answer::Typed { text, slip }) => entry::reading(self, name, &text, slip),
            (Ask::Reading(name), _, Answer::Particular(ParticularAnswer::File(file))) => {
                kept_file::read(self, &name, file)
            }
            (Ask::Confirm { hold, item }, _, Answer::True) => Ok(Event::Confirmed { hold, item }),
            (Ask::Confirm { hold, item }, _, Answer::Untrue { state }) => {
                Ok(Event::Contradicted { hold, item, state: filled("how it is", state)? })
            }
            (Ask::Release { hold, role }, _, Answer::Release { said }) => {
                self.decide_release(prompt, hold, role, &said)
            }
            (Ask::Dispose(deviation), _, Answer::Dispose { disposition, reason }) => {
                Ok(Event::Disposed { deviation, disposition, reason: filled("the reason", reason)? })
            }
            (Ask::Close, _, Answer::Close) => self.decide_close(),
            (Ask::Acknowledge(hazard), Some(step), Answer::Acknowledge) => {
                Ok(Event::Acknowledged { step, hazard })
            }
            (Ask::Do, Some(step), Answer::Done) => Ok(Event::Done(step)),
            (Ask::Pick(steps), _, Answer::Pick(step)) if steps.contains(&step) => Ok(Event::Picked(step)),
            (Ask::Pick(_), _, Answer::Pick(_)) => Err(Refusal::NotOffered),
            (Ask::Late { wait, .. }, Some(step), Answer::Accept { disposition, reason }) => {
                Ok(Event::LateAccepted { step, wait, disposition, reason: filled("the reason", reason)? })
            }
            (Ask::Late { wait, .. }, Some(step), Answer::Flow(FlowAnswer::Missed))
                if self.book.has_path_for_missed(&wait) =>
            {
                Ok(Event::Flow(FlowEvent::Missed { step, wait }))
            }
            (Ask::Wait { wait, .. }, _, Answer::Flow(FlowAnswer::Early))
                if self.book.procedure.repeat(&wait).is_some() =>
            {
                Ok(Event::Flow(FlowEvent::BegunEarly(wait)))
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
