//! A wait is started by one step and needed by a later one.

use crate::procedure::check::Draft;
use crate::procedure::{Name, Step};
use crate::source::{Code, Diagnostic, Spanned};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&WAIT_ORDER, &WAIT_UNNEEDED];

/// A wait that may be needed before it runs.
pub static WAIT_ORDER: Code = Code {
    name: "wait-order",
    summary: "a step may need a wait before another one has started it",
    teaching: "\
The first step that names a wait starts its clock, later ones need it to be over. In a bullet list the second may
be done first.

Wrong: `- Paint the bracket. [drying]` and `- Fit the bracket. [drying]` in one bullet list

Right: both in a numbered list
",
};

/// A wait for nothing.
pub static WAIT_UNNEEDED: Code = Code {
    name: "wait-unneeded",
    summary: "a wait is started and no later step needs it",
    teaching: "\
The step that must not begin before the time is over names the wait too.

Wrong: `[drying]` only in the step that paints

Right: `[drying]` also in the step that fits the painted part
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let waits = draft.declarations.waits.iter().map(|entry| &entry.name);
    waits.flat_map(|wait| of_one(draft, wait)).collect()
}

fn of_one(draft: &Draft<'_>, wait: &Spanned<Name>) -> Vec<Diagnostic> {
    let Some(start) = draft.steps_with(&wait.value).find(|step| step.starts.contains(&wait.value)) else {
        return Vec::new();
    };
    let needing: Vec<&Step> =
        draft.steps_with(&wait.value).filter(|step| step.needs.contains(&wait.value)).collect();
    if needing.is_empty() {
        return vec![unneeded(draft, &wait.value, start)];
    }
    let early = needing.into_iter().filter(|step| !is_over_before(draft, start, step));
    early.map(|step| too_early(draft, &wait.value, start, step)).collect()
}

/// A wait starts when its step is done, with all its parts: none of them can need it.
fn is_over_before(draft: &Draft<'_>, start: &Step, later: &Step) -> bool {
    let mut parent = later.parent;
    while let Some(id) = parent {
        if id == start.id {
            return false;
        }
        parent = draft.step(id).and_then(|step| step.parent);
    }
    draft.surely_before(start, later)
}

fn unneeded(draft: &Draft<'_>, wait: &Name, start: &Step) -> Diagnostic {
    let diagnostic = Diagnostic::warning(&WAIT_UNNEEDED, format!("no later step needs the wait `{wait}`"));
    let place = draft.mention_in(start.id, wait).unwrap_or(start.span);
    diagnostic.at(place, "started here").help(format!("write `[{wait}]` in the step that has to wait"))
}

fn too_early(draft: &Draft<'_>, wait: &Name, start: &Step, step: &Step) -> Diagnostic {
    let headline = format!("step {} may be reached before the wait `{wait}` has begun", step.number);
    let diagnostic = Diagnostic::error(&WAIT_ORDER, headline);
    let place = draft.mention_in(step.id, wait).unwrap_or(step.span);
    let diagnostic = diagnostic.at(place, "needed here").also(start.span, "begins when this step is done");
    diagnostic.help("put the two steps into a numbered list, one after the other")
}
