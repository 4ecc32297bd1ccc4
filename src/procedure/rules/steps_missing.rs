//! A procedure has steps.

use crate::procedure::document::Outline;
use crate::source::{Code, Diagnostic, Span};

/// Nothing to do.
pub static STEPS_MISSING: Code = Code {
    name: "steps-missing",
    summary: "the procedure has no steps",
    teaching: "\
Steps are the items of lists: a numbered list is done in its order, a bullet list in any order. Paragraphs
explain; nothing in them is asked or ticked off.

Wrong: `Drain the fluid. Read [drained].`

Right: `1. Drain the fluid.` and `2. Read [drained].`
",
};

pub(super) fn check(outline: &Outline) -> Option<Diagnostic> {
    if !outline.steps.is_empty() {
        return None;
    }
    let place = outline.title.as_ref().map_or(Span::START, |title| title.span);
    let diagnostic = Diagnostic::error(&STEPS_MISSING, "the procedure has no steps");
    let diagnostic = diagnostic.at(place, "nothing is to be done");
    Some(diagnostic.help("write the steps as a list: `1. Drain the fluid.`"))
}
