//! There is a role `lead`: one person answers for the job.

use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic, Span};

/// Nobody leads.
pub static LEAD_MISSING: Code = Code {
    name: "lead-missing",
    summary: "no role `lead` is declared",
    teaching: "\
Every job has one person who answers for it. Steps without a role are the lead's.

Wrong: no `[roles]`

Right: `[roles]` with `lead = \"does the work, releases the hold points\"`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let roles = &draft.declarations.roles;
    if roles.iter().any(|entry| entry.name.value.as_str() == "lead") {
        return Vec::new();
    }
    let diagnostic = Diagnostic::error(&LEAD_MISSING, "no role `lead` is declared");
    let place = roles.first().map_or(Span::START, |entry| entry.name.span);
    let diagnostic = diagnostic.at(place, "somebody must answer for the job");
    vec![diagnostic.help("add `[roles]` with `lead = \"does the work, releases the hold points\"`")]
}
