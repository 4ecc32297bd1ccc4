//! From an answer to what happens among people, and to the state after it.

use crate::procedure::{Name, StepId};
use crate::run::apply::Next;
use crate::run::event::Event;
use crate::run::people::event::{PeopleAnswer, PeopleAsk, PeopleEvent};
use crate::run::people::{attendance, oversight};
use crate::run::prompt::{Answer, Prompt};
use crate::run::readings::second;
use crate::run::refusal::Refusal;
use crate::run::typed::filled;
use crate::run::view::View;

/// What an answer makes of a question of this family.
pub(in crate::run) fn asked(
    view: View<'_>,
    prompt: &Prompt,
    ask: &PeopleAsk,
    answer: Answer,
) -> Result<Event, Refusal> {
    let event = match (ask, prompt.step, answer) {
        (PeopleAsk::Still(role), _, Answer::People(PeopleAnswer::Keep)) => PeopleEvent::Kept(role.clone()),
        (PeopleAsk::Still(role), _, Answer::People(PeopleAnswer::Named(person))) => {
            attendance::named(view, role, person)?
        }
        (PeopleAsk::PreJobBrief, _, Answer::People(PeopleAnswer::Present(said))) => {
            attendance::brief(view, &said)?
        }
        (PeopleAsk::Witness(witness), Some(step), Answer::People(PeopleAnswer::Absent { reason })) => {
            let reason = filled("the reason", reason)?;
            PeopleEvent::NotWitnessed { step, witness: witness.clone(), reason }
        }
        (PeopleAsk::Check(check), Some(step), Answer::People(PeopleAnswer::Reinspect { said, reason })) => {
            oversight::reinspect(view, step, check, &said, filled("the reason", reason)?)?
        }
        (PeopleAsk::Turnover(role), _, Answer::Release { said }) => attendance::accept(view, role, &said)?,
        (PeopleAsk::Witness(witness), Some(step), Answer::Release { said }) => {
            oversight::witness(view, step, witness, &said)?
        }
        (PeopleAsk::SignOff(role), Some(step), Answer::Release { said }) => {
            oversight::sign_off(view, step, role, &said)?
        }
        (PeopleAsk::Check(check), Some(step), Answer::Release { said }) => {
            oversight::verify(view, step, check, &said)?
        }
        (PeopleAsk::SignOff(_) | PeopleAsk::Check(_), Some(step), Answer::Untrue { state }) => {
            oversight::found_wrong(view, step, ask, filled("how it is", state)?)?
        }
        (PeopleAsk::Second(reading), _, Answer::Typed { text, slip }) => {
            second::read(view, reading, &text, slip)?
        }
        (PeopleAsk::Differs(reading), _, Answer::Again { reason }) => {
            let reason = filled("what was done about it", reason)?;
            return Ok(Event::TakenAgain { readings: vec![reading.clone()], reason });
        }
        (PeopleAsk::Differs(reading), step, Answer::Accept { disposition, reason }) => {
            second::accept(view, step, reading, disposition, filled("the reason", reason)?)?
        }
        (PeopleAsk::Nominal(result), Some(step), Answer::Good) => judged(view, step, result, None),
        (PeopleAsk::Nominal(result), Some(step), Answer::NotGood { state }) => {
            judged(view, step, result, Some(filled("what is wrong", state)?))
        }
        _ => return Err(Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) }),
    };
    Ok(Event::People(event))
}

fn judged(view: View<'_>, step: StepId, result: &Name, wrong: Option<String>) -> PeopleEvent {
    PeopleEvent::Judged { result: result.clone(), person: view.judges(Some(step)).to_owned(), wrong }
}

impl Next<'_> {
    pub(in crate::run) fn people(&mut self, event: &PeopleEvent) {
        match event {
            PeopleEvent::Kept(role) => self.state.people.keep(role, self.stamp),
            PeopleEvent::TakenOver { role, person, note } => self.take_over(role, person, note.clone()),
            PeopleEvent::TurnoverAccepted { role, .. } => self.state.people.accept(role, self.stamp),
            PeopleEvent::NameCorrected { role, entry, person, reason } => {
                self.state.people.correct(role, *entry, person, reason, self.stamp);
            }
            PeopleEvent::Briefed { .. } => self.state.people.briefed = Some(self.stamp.seq),
            PeopleEvent::SecondRead { reading, value, person } => self.read_second(reading, value, person),
            PeopleEvent::DifferenceAccepted { reading, disposition, reason } => {
                self.accept_difference(reading, *disposition, reason);
            }
            PeopleEvent::Judged { .. } => self.take_opinion(event),
            other => self.look_over(other),
        }
    }
}
