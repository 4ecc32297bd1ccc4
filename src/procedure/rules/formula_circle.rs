//! No formula needs its own result.

use std::collections::BTreeSet;

use crate::procedure::Name;
use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic};

/// A value that needs itself.
pub static FORMULA_CIRCLE: Code = Code {
    name: "formula-circle",
    summary: "a formula needs its own result",
    teaching: "\
A value that is computed from another one, which is computed from the first, can never be known.

Wrong: `[values.a]` with `formula = 'b + 1 L'` and `[values.b]` with `formula = 'a - 1 L'`

Right: one of them computed from a reading
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let circular = |name: &&Name| leads_to(draft, name, name);
    draft.inputs().keys().filter(circular).filter_map(|name| report(draft, name)).collect()
}

fn report(draft: &Draft<'_>, name: &Name) -> Option<Diagnostic> {
    let inputs = draft.inputs().get(name)?;
    let guilty = inputs.iter().find(|input| input.value == *name || leads_to(draft, &input.value, name))?;
    let diagnostic = Diagnostic::error(&FORMULA_CIRCLE, format!("`{name}` needs its own result"));
    let diagnostic = diagnostic.at(guilty.span, format!("this leads back to `{name}`"));
    let diagnostic = diagnostic.also(draft.names.get(name)?.span, "declared here");
    Some(diagnostic.help("compute one of them from readings and vehicle values"))
}

fn leads_to(draft: &Draft<'_>, from: &Name, to: &Name) -> bool {
    let mut seen = BTreeSet::from([from]);
    let mut open = vec![from];
    while let Some(name) = open.pop() {
        for input in draft.inputs().get(name).into_iter().flatten() {
            if input.value == *to {
                return true;
            }
            if seen.insert(&input.value) {
                open.push(&input.value);
            }
        }
    }
    false
}
