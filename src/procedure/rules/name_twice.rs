//! One name stands for one thing in the whole file.

use std::collections::HashMap;

use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic};

/// One name for two things.
pub static NAME_TWICE: Code = Code {
    name: "name-twice",
    summary: "two things have the same name",
    teaching: "\
The text mentions a name without saying which table it stands in, so a name belongs to one thing in the whole
file.

Wrong: `pump` under `[tools]` and `[readings.pump]`

Right: `pump` and `pump_pressure`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let mut first = HashMap::new();
    let mut found = Vec::new();
    for (name, table) in draft.declarations.names() {
        let Some((place, earlier)) = first.get(&name.value) else {
            first.insert(&name.value, (name.span, table));
            continue;
        };
        let diagnostic = Diagnostic::error(&NAME_TWICE, format!("`{}` is declared twice", name.value));
        let diagnostic = diagnostic.at(name.span, format!("a {table}")).also(*place, format!("a {earlier}"));
        found.push(diagnostic.help("give one of them another name"));
    }
    found
}
