//! A step has words of its own.

use crate::procedure::Step;
use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic};

/// A step without words.
pub static STEP_EMPTY: Code = Code {
    name: "step-empty",
    summary: "a step says nothing",
    teaching: "\
A step begins with words that say what to do: not with a note, a code block or another list, and not with roles,
hazards and conditions alone.

Wrong: `1. [helper] [hot_fluid]`

Right: `1. [helper] [hot_fluid] Open the drain.`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let empty = draft.steps.iter().filter(|step| step.text.is_empty());
    empty.map(report).collect()
}

fn report(step: &Step) -> Diagnostic {
    let diagnostic = Diagnostic::error(&STEP_EMPTY, format!("step {} says nothing", step.number));
    diagnostic
        .at(step.span, "no words of its own")
        .help("say what to do, in one sentence that begins with a verb")
}
