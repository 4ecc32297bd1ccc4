//! From an answer to what happens, or a refusal.

use crate::procedure::{Name, SectionId, StepId};
use crate::run::prompt::{Answer, Ask, Prompt};
use crate::run::refusal::Refusal;
use crate::run::sitting::event::{Declared, InterruptionAnswer, InterruptionAsk, InterruptionEvent};
use crate::run::step::leave_out;
use crate::run::typed::{filled, names};
use crate::run::view::View;
use crate::run::work::taken::Before;

/// A departure is declared.
pub(in crate::run) fn declare(
    prompt: &Prompt,
    declared: Declared,
    reason: String,
) -> Result<InterruptionEvent, Refusal> {
    Ok(InterruptionEvent::Declared { step: prompt.step, declared, reason: filled("the reason", reason)? })
}

/// A step is put off to the end of a section.
pub(in crate::run) fn defer_to_end(
    view: View<'_>,
    step: StepId,
    section: SectionId,
    reason: String,
) -> Result<InterruptionEvent, Refusal> {
    let reason = filled("the reason", reason)?;
    leave_out::may_defer(view, step, Before::EndOf(section)).map(|()| InterruptionEvent::DeferredToEnd {
        step,
        section,
        reason,
    })
}

/// What an answer makes of a question of this family.
pub(in crate::run) fn asked(
    view: View<'_>,
    ask: &InterruptionAsk,
    answer: Answer,
) -> Result<InterruptionEvent, Refusal> {
    use InterruptionAnswer as Own;
    let not_asked = || Refusal::NotAsked { asked: Box::new(Ask::Interruption(ask.clone())) };
    let Answer::Interruption(answer) = answer else { return Err(not_asked()) };
    match (ask.clone(), answer) {
        (InterruptionAsk::Scope, Own::OutOfScope { disposition, reason }) => {
            Ok(InterruptionEvent::OutOfScope { disposition, reason: filled("the reason", reason)? })
        }
        (ask, Own::True) => so(ask),
        (ask, Own::Untrue { state }) => not_so(ask, filled("how it is", state)?),
        (InterruptionAsk::Standing, Own::Standing { state }) => {
            Ok(InterruptionEvent::Found { state: filled("the state of things", state)? })
        }
        (InterruptionAsk::Protection(hold), Own::Keep) => Ok(InterruptionEvent::Kept { hold }),
        (InterruptionAsk::Protection(hold), Own::MakeSafe) => Ok(InterruptionEvent::MakeSafe { hold }),
        (InterruptionAsk::Approval(step), Own::Approve { said }) => approve(view, step, &said),
        (InterruptionAsk::Approval(step), Own::Refuse { reason }) => {
            Ok(InterruptionEvent::NotApproved { step, reason: filled("the reason", reason)? })
        }
        _ => Err(not_asked()),
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
    let person = view.state.people.get(&Name::from("lead")).cloned().unwrap_or_default();
    if names(said, &person) {
        return Ok(InterruptionEvent::Approved { step, by: person });
    }
    Err(Refusal::NotTheLead { said: said.trim().to_owned(), person })
}
