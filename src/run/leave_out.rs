//! Leaving a step out, or putting it off: what may be, and what may not.

use super::decide::filled;
use super::event::Event;
use super::refusal::Refusal;
use super::view::View;
use crate::procedure::{Step, StepId};

/// A person says that a step does not apply. A hold point always does.
pub(super) fn not_applicable(view: View<'_>, step: StepId, reason: String) -> Result<Event, Refusal> {
    let mut steps = view.book.procedure.steps().iter().filter(|inner| view.book.is_within(inner.id, step));
    if steps.any(|inner| inner.hold.is_some()) {
        return Err(Refusal::HoldPoint("left out"));
    }
    Ok(Event::NotApplicable { step, reason: filled("the reason", reason)? })
}

/// A step is put off until just before a later one, but not past a hold point, which vouches for all that stands
/// before it, and not past a step that needs what it reads.
pub(super) fn defer(view: View<'_>, step: StepId, before: StepId, reason: String) -> Result<Event, Refusal> {
    let procedure = &view.book.procedure;
    let (Some(own), Some(target)) = (procedure.step(step), procedure.step(before)) else {
        return Err(Refusal::NotOffered);
    };
    let later = before > step && !view.book.is_within(before, step) && !view.is_settled(target);
    if !later {
        return Err(Refusal::NotLater { before: target.number.clone() });
    }
    let passed = || procedure.steps()[step.0..before.0].iter();
    if let Some(hold) = passed().find_map(|step| step.hold.as_ref()) {
        let what = procedure.hold(hold).map_or_else(|| hold.to_string(), |hold| hold.what.clone());
        let own_hold = own.hold.as_ref() == Some(hold);
        return Err(if own_hold {
            Refusal::HoldPoint("put off")
        } else {
            Refusal::AcrossHold { hold: what }
        });
    }
    let others = passed().filter(|other| !view.book.is_within(other.id, step) && !view.is_settled(other));
    if let Some(needy) = others.into_iter().find(|other| needs_of(view, other, own)) {
        return Err(Refusal::NeededBefore { step: needy.number.clone() });
    }
    Ok(Event::Deferred { step, before, reason })
}

/// Whether `other` needs what `own`, or a part of it, reads or starts.
fn needs_of(view: View<'_>, other: &Step, own: &Step) -> bool {
    let needs = view.book.step_needs(other);
    let inner = view.book.procedure.steps().iter().filter(|step| view.book.is_within(step.id, own.id));
    inner.into_iter().any(|step| {
        step.takes.iter().any(|reading| needs.contains(reading))
            || step.starts.iter().any(|wait| other.needs.contains(wait))
    })
}
