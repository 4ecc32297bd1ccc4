//! From an answer to what happens, or a refusal.

use crate::procedure::{Name, StepId};
use crate::run::event::Event;
use crate::run::prompt::{Ask, Prompt};
use crate::run::refusal::Refusal;
use crate::run::sitting::event::{InterruptionAnswer, InterruptionAsk, InterruptionEvent};
use crate::run::step::leave_out;
use crate::run::typed::{filled, names};
use crate::run::view::View;
use crate::run::work::taken::Before;

/// What an answer makes.
pub(in crate::run) fn decide(
    view: View<'_>,
    prompt: &Prompt,
    answer: InterruptionAnswer,
) -> Result<Event, Refusal> {
    match answer {
        InterruptionAnswer::Declare { declared, reason } => Ok(InterruptionEvent::Declared {
            step: prompt.step,
            declared,
            reason: filled("the reason", reason)?,
        }),
        InterruptionAnswer::DeferToEnd { section, reason } => {
            let Some(step) = prompt.step else {
                return Err(Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) });
            };
            let reason = filled("the reason", reason)?;
            leave_out::may_defer(view, step, Before::EndOf(section))
                .map(|()| InterruptionEvent::DeferredToEnd { step, section, reason })
        }
        other => prompted(view, prompt, other),
    }
    .map(Event::Interruption)
}

fn prompted(
    view: View<'_>,
    prompt: &Prompt,
    answer: InterruptionAnswer,
) -> Result<InterruptionEvent, Refusal> {
    use InterruptionAnswer as Answer;
    let Ask::Interruption(ask) = prompt.ask.clone() else {
        return Err(Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) });
    };
    match (ask, answer) {
        (InterruptionAsk::Scope, Answer::OutOfScope { disposition, reason }) => {
            Ok(InterruptionEvent::OutOfScope { disposition, reason: filled("the reason", reason)? })
        }
        (ask, Answer::True) => so(ask),
        (ask, Answer::Untrue { state }) => not_so(ask, filled("how it is", state)?),
        (InterruptionAsk::Standing, Answer::Standing { state }) => {
            Ok(InterruptionEvent::Found { state: filled("the state of things", state)? })
        }
        (InterruptionAsk::Protection(hold), Answer::Keep) => Ok(InterruptionEvent::Kept { hold }),
        (InterruptionAsk::Protection(hold), Answer::MakeSafe) => Ok(InterruptionEvent::MakeSafe { hold }),
        (InterruptionAsk::Approval(step), Answer::Approve { said }) => approve(view, step, &said),
        (InterruptionAsk::Approval(step), Answer::Refuse { reason }) => {
            Ok(InterruptionEvent::NotApproved { step, reason: filled("the reason", reason)? })
        }
        (ask, _) => Err(Refusal::NotAsked { asked: Box::new(Ask::Interruption(ask)) }),
    }
}

fn so(ask: InterruptionAsk) -> Result<InterruptionEvent, Refusal> {
    match ask {
        InterruptionAsk::Scope => Ok(InterruptionEvent::Covered),
        InterruptionAsk::Statement(statement) => Ok(InterruptionEvent::Stated(statement)),
        InterruptionAsk::StillSo(step) => Ok(InterruptionEvent::StillSo(step)),
        ask => Err(Refusal::NotAsked { asked: Box::new(Ask::Interruption(ask)) }),
    }
}

fn not_so(ask: InterruptionAsk, state: String) -> Result<InterruptionEvent, Refusal> {
    match ask {
        InterruptionAsk::Scope => Ok(InterruptionEvent::NotCovered { state }),
        InterruptionAsk::Statement(statement) => Ok(InterruptionEvent::Unmet { statement, state }),
        InterruptionAsk::StillSo(step) => Ok(InterruptionEvent::NotSo { step, state }),
        ask => Err(Refusal::NotAsked { asked: Box::new(Ask::Interruption(ask)) }),
    }
}

/// Only the lead says that a step does not apply although no condition says so.
fn approve(view: View<'_>, step: StepId, said: &str) -> Result<InterruptionEvent, Refusal> {
    let person = view.state.people.get(&Name("lead".to_owned())).cloned().unwrap_or_default();
    if names(said, &person) {
        return Ok(InterruptionEvent::Approved { step, by: person });
    }
    Err(Refusal::NotTheLead { said: said.trim().to_owned(), person })
}
