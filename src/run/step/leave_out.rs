//! Leaving a step out, or putting it off: what may be, and what may not.

use crate::procedure::{Ground, Step, StepId};
use crate::run::event::Event;
use crate::run::refusal::Refusal;
use crate::run::typed::filled;
use crate::run::view::View;
use crate::run::work::part::Part;
use crate::run::work::taken::Before;

/// A person says that a step does not apply. A hold point always does.
pub(in crate::run) fn not_applicable(view: View<'_>, step: StepId, reason: String) -> Result<Event, Refusal> {
    if view.book.procedure.step(step).is_none_or(|step| view.is_settled(step)) {
        return Err(Refusal::NotOffered);
    }
    if holds_something(view, step) {
        return Err(Refusal::HoldPoint("left out"));
    }
    Ok(Event::NotApplicable { step, reason: filled("the reason", reason)? })
}

impl View<'_> {
    /// Whether a person can say that a step does not apply, or put it off: never a hold point.
    pub fn can_be_passed_by(self, step: StepId) -> bool {
        !holds_something(self, step)
    }
}

/// Whether a step or a part of it is a hold point.
fn holds_something(view: View<'_>, step: StepId) -> bool {
    let mut steps = view.book.procedure.steps().iter().filter(|inner| view.book.is_within(inner.id, step));
    steps.any(|inner| inner.hold.is_some())
}

/// A step is put off until just before a later one, but not past a hold point, which vouches for all that stands
/// before it, and not past a step that needs what it reads.
pub(in crate::run) fn defer(
    view: View<'_>,
    step: StepId,
    before: StepId,
    reason: String,
) -> Result<Event, Refusal> {
    may_defer(view, step, Before::Step(before))?;
    Ok(Event::Deferred { step, before, reason })
}

/// Whether a step can be put off until then.
pub(in crate::run) fn may_defer(view: View<'_>, step: StepId, before: Before) -> Result<(), Refusal> {
    let procedure = &view.book.procedure;
    let own = procedure.step(step).filter(|step| !view.is_settled(step)).ok_or(Refusal::NotOffered)?;
    let passed = passed(view, own, before)?;
    let passed = || passed.iter();
    if let Some(hold) = passed().find_map(|step| step.hold.as_ref()) {
        let what = procedure.hold(hold).map_or_else(|| hold.to_string(), |hold| hold.what.clone());
        let own_hold = own.hold.as_ref() == Some(hold);
        return Err(if own_hold {
            Refusal::HoldPoint("put off")
        } else {
            Refusal::AcrossHold { hold: what }
        });
    }
    if let Some(reading) =
        found_in(view, own).filter(|_| passed().any(|other| !view.book.is_within(other.id, step)))
    {
        return Err(Refusal::FoundFirst { reading });
    }
    let others = passed().filter(|other| !view.book.is_within(other.id, step) && !view.is_settled(other));
    if let Some(needy) = others.into_iter().find(|other| needs_of(view, other, own)) {
        return Err(Refusal::NeededBefore { step: needy.number.clone() });
    }
    Ok(())
}

/// The step itself and those that would be done before it.
fn passed<'run>(view: View<'run>, own: &Step, before: Before) -> Result<&'run [Step], Refusal> {
    let steps = view.book.procedure.steps();
    let (end, later) = match before {
        Before::Step(before) => {
            let target = view.book.procedure.step(before).ok_or(Refusal::NotOffered)?;
            let is_later = before > own.id && !view.book.is_within(before, own.id);
            (before.0, is_later && !view.is_settled(target))
        }
        Before::EndOf(section) => {
            let end = steps.iter().position(|step| step.section > section);
            (end.unwrap_or(steps.len()), section >= own.section)
        }
    };
    if !later {
        return Err(Refusal::NotLater { before: before.words(view.book) });
    }
    Ok(steps.get(own.id.0..end).unwrap_or_default())
}

/// Whether `other` needs what `own`, or a part of it, reads or starts.
fn needs_of(view: View<'_>, other: &Step, own: &Step) -> bool {
    let needs = view.book.step_needs(other);
    let decided_by = view.book.grounds_over(other);
    within(view, own).any(|step| {
        step.takes.iter().any(|reading| needs.contains(reading))
            || step.starts.iter().any(|wait| other.needs.contains(wait))
            || decided_by.iter().any(|ground| decides(view, step, ground))
    })
}

/// Whether it is at this step that a time turns out to be missed, or a repeat is given up.
fn decides(view: View<'_>, step: &Step, ground: &Ground) -> bool {
    match ground {
        Ground::Missed(wait) => step.needs.contains(wait),
        Ground::GaveUp(repeat) => view.book.repeats_over(Part::Step(step.id)).contains(&repeat),
        Ground::If(_) | Ground::Failed(_) => false,
    }
}

/// What a step or its parts read as found: before anything is changed.
fn found_in(view: View<'_>, own: &Step) -> Option<String> {
    let mut names = within(view, own).flat_map(|step| &step.takes);
    let found = names.find(|name| view.is_as_found(name))?;
    Some(view.book.procedure.called(found).to_owned())
}

fn within<'run>(view: View<'run>, own: &Step) -> impl Iterator<Item = &'run Step> {
    let own = own.id;
    view.book.procedure.steps().iter().filter(move |step| view.book.is_within(step.id, own))
}
