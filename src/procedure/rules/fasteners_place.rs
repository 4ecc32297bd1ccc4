//! A group of fasteners is tightened at one step, which is no hold point.

use crate::procedure::check::Draft;
use crate::procedure::written::Table;
use crate::source::{Code, Diagnostic};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&FASTENERS_TWICE];

/// A group in two places.
pub static FASTENERS_TWICE: Code = Code {
    name: "fasteners-twice",
    summary: "two steps name the same group of fasteners, or a hold point does",
    teaching: "\
A group of fasteners is tightened at the one step that names it. A second step that names it would tighten nothing.
To tighten once more, declare a second group, or repeat the section. The step of a hold point only holds.

Wrong: `[pan_bolts]` in step 2.4 and `Tighten [pan_bolts] once more` in step 3.1

Right: `[pan_bolts]` in step 2.4, `[pan_bolts_warm]` in step 3.1
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let mut found: Vec<Diagnostic> = draft.mentions.iter().filter_map(|again| twice(draft, again)).collect();
    found.extend(draft.steps.iter().filter_map(|step| {
        let (group, hold) = (step.fasteners.first()?, step.hold.as_ref()?);
        let headline = format!("step {} is the hold point `{hold}` and tightens fasteners", step.number);
        let diagnostic = Diagnostic::error(&FASTENERS_TWICE, headline);
        let here = draft.mention_in(step.id, group).unwrap_or(step.span);
        Some(diagnostic.at(here, "tightened here").help(format!("give `[{group}]` a step of its own")))
    }));
    found
}

fn twice(draft: &Draft<'_>, again: &crate::procedure::check::Mention) -> Option<Diagnostic> {
    let name = &again.name.value;
    if !draft.is(name, Table::Fasteners) {
        return None;
    }
    let first = draft.mentions.iter().find(|mention| mention.name.value == *name)?;
    if first.step == again.step {
        return None;
    }
    let headline = format!("two steps name the fasteners `{name}`");
    let diagnostic = Diagnostic::error(&FASTENERS_TWICE, headline);
    let diagnostic = diagnostic.at(again.name.span, "nothing is tightened here");
    let diagnostic = diagnostic.also(first.name.span, "tightened here");
    Some(diagnostic.help("declare another group for the second place, or say it without brackets"))
}
