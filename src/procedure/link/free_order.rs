//! A linked procedure with hold points is not run in a list whose order is free.

use super::take_in::Child;
use crate::procedure::rules::hold_place::HOLD_IN_FREE_ORDER;
use crate::procedure::{CheckedProcedure, Group, Order, StepId};
use crate::source::{Diagnostic, Span};

/// Says that the linked procedure has hold points where the order of steps is free.
pub(super) fn hold_in_free_order(
    procedure: &CheckedProcedure,
    child: &Child<'_>,
    link: Span,
) -> Option<Diagnostic> {
    let hold = child.procedure.holds().names().next()?;
    if !is_in_free_order(procedure, child.step) {
        return None;
    }
    let headline = format!("`{}` has hold points and is run in a list whose order is free", child.address);
    let diagnostic = Diagnostic::error(&HOLD_IN_FREE_ORDER, headline);
    let diagnostic = diagnostic.at(link, format!("holds at `{hold}`, and its neighbours may be done before"));
    Some(diagnostic.help("put it and its neighbours into a numbered list"))
}

fn is_in_free_order(procedure: &CheckedProcedure, step: StepId) -> bool {
    let mut at = procedure.step(step);
    while let Some(step) = at {
        let parent = step.parent.and_then(|parent| procedure.step(parent));
        let section = procedure.section(step.section);
        let groups = parent
            .map(|parent| parent.groups.as_slice())
            .or(section.map(|section| section.groups.as_slice()));
        let mut groups = groups.into_iter().flatten();
        if groups.any(|group: &Group| {
            group.order == Order::AnyOrder && group.steps.len() > 1 && group.steps.contains(&step.id)
        }) {
            return true;
        }
        at = parent;
    }
    false
}
