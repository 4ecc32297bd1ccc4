//! A step that texts speak of stands in one place.

use std::collections::BTreeMap;

use super::name_unknown::everywhere;
use crate::procedure::check::{Draft, front_names};
use crate::procedure::{Name, Table};
use crate::source::{Code, Diagnostic, Span, Spanned};

/// A named step that is nowhere, or in two places.
pub static STEP_PLACE: Code = Code {
    name: "step-place",
    summary: "the name of a step stands in front of no step, or of two",
    teaching: "\
A step that other texts speak of has a name under `[steps]`. The step that begins with the name is that step;
every other mention shows its number, which is right also after steps were added and where the procedure is run
by another one. So exactly one step begins with it.

Wrong: `3. Fill in the first part.` and `7. [refill] once more if it leaked.`

Right: `3. [refill] Fill in the first part.` and `7. If it leaked, go on at [refill].`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let mut first = BTreeMap::new();
    for mention in everywhere(draft).into_iter().filter(|mention| draft.is(&mention.value, Table::Steps)) {
        let place = first.entry(&mention.value).or_insert(mention.span);
        *place = (*place).min(mention.span);
    }
    let named = draft.names.iter().filter(|(_, declared)| declared.table == Table::Steps);
    named.filter_map(|(name, declared)| misplaced(draft, name, declared.span, first.get(name))).collect()
}

fn misplaced(draft: &Draft<'_>, name: &Name, declared: Span, first: Option<&Span>) -> Option<Diagnostic> {
    let places = places(draft, name);
    let here = match places.as_slice() {
        [_] => return None,
        [first, second, ..] => {
            let headline = format!("two steps begin with `[{name}]`");
            let diagnostic = Diagnostic::error(&STEP_PLACE, headline).at(second.span, "the second");
            let diagnostic = diagnostic.also(first.span, "the first");
            return Some(
                diagnostic.help(format!("to speak of the first, put a word in front: `Go on at [{name}]`")),
            );
        }
        // What is never mentioned is the business of another rule.
        [] => *first?,
    };
    let headline = format!("no step begins with `[{name}]`");
    let diagnostic = Diagnostic::error(&STEP_PLACE, headline).at(here, "speaks of a step that is nowhere");
    let diagnostic = diagnostic.also(declared, "declared here");
    Some(
        diagnostic
            .help(format!("write `[{name}]` in front of the step that is meant: `1. [{name}] Fill ...`")),
    )
}

/// Where a name stands in front of a step.
fn places(draft: &Draft<'_>, name: &Name) -> Vec<Spanned<Name>> {
    let steps = draft.steps_with(name).filter_map(|step| draft.outline.steps.get(step.id.0));
    let begins = steps.filter(|step| front_names(&step.text, draft.names).contains(name));
    let mention =
        |pieces| crate::procedure::check::mentions_of(pieces).find(|said| said.value == *name).cloned();
    begins.filter_map(|step| mention(&step.text)).collect()
}
