//! A hazard is named before the act that it warns of.

use std::collections::BTreeSet;

use crate::procedure::check::{Draft, mentions_of};
use crate::procedure::{Name, Passage, Section, SectionId, Step, Table};
use crate::source::{Code, Diagnostic, Spanned};

/// A warning after the act.
pub static HAZARD_LATE: Code = Code {
    name: "hazard-late",
    summary: "a hazard is named after the act that it warns of",
    teaching: "\
A safety message stands before its step. On paper what stands after the act is read after the act, and prose after
the last step of a section is before no step at all. A hazard is named at the front of the step, in the heading of
the section, or in a paragraph before the step.

Wrong: `1. Open the drain plug.` and then a paragraph `The oil is hot: [hot_oil].`

Right: `1. [hot_oil] Open the drain plug.`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let inside = draft.steps.iter().flat_map(|step| inside(draft, step));
    let after = draft.sections.iter().enumerate().flat_map(|(index, section)| after(draft, index, section));
    inside.chain(after).collect()
}

/// Hazards that only a paragraph or a note inside a step names.
fn inside(draft: &Draft<'_>, step: &Step) -> Vec<Diagnostic> {
    let named = hazards_in(draft, &step.passages);
    if named.is_empty() {
        return Vec::new();
    }
    let before = known_at(draft, step);
    let late = named.into_iter().filter(|name| !before.contains(&name.value));
    late.map(|name| report(&name, &format!("step {}", step.number))).collect()
}

/// Hazards that stand before a step is done: in its words, before it, at what it is a part of, in the heading.
fn known_at(draft: &Draft<'_>, step: &Step) -> BTreeSet<Name> {
    let mut known: BTreeSet<Name> = BTreeSet::new();
    let mut at = Some(step);
    while let Some(step) = at {
        known.extend(draft.mentions_said(step).map(|name| name.value.clone()));
        known.extend(names(&hazards_in(draft, &step.before)));
        at = step.parent.and_then(|parent| draft.step(parent));
    }
    known.extend(draft.sections.get(step.section.0).into_iter().flat_map(|section| section.hazards.clone()));
    known
}

/// Hazards that only the prose after the last step of a section names.
fn after(draft: &Draft<'_>, index: usize, section: &Section) -> Vec<Diagnostic> {
    let mut known: BTreeSet<Name> = section.hazards.iter().cloned().collect();
    let steps = draft.steps_in(SectionId(index)).iter();
    known.extend(steps.flat_map(|step| step.hazards.iter().cloned()));
    let any = section.groups.iter().any(|group| !group.steps.is_empty());
    let late = hazards_in(draft, &section.after).into_iter();
    let late = late.filter(|name| any && !known.contains(&name.value));
    late.map(|name| report(&name, "the last step of the section")).collect()
}

fn hazards_in(draft: &Draft<'_>, passages: &[Passage]) -> Vec<Spanned<Name>> {
    let named = passages.iter().flat_map(|passage| mentions_of(&passage.text));
    named.filter(|name| draft.is(&name.value, Table::Hazards)).cloned().collect()
}

fn names(mentions: &[Spanned<Name>]) -> Vec<Name> {
    mentions.iter().map(|name| name.value.clone()).collect()
}

fn report(name: &Spanned<Name>, what: &str) -> Diagnostic {
    let headline = format!("the hazard `{}` is named after {what}", name.value);
    let diagnostic = Diagnostic::warning(&HAZARD_LATE, headline).at(name.span, "read when it is done");
    diagnostic.help(format!("write `[{}]` at the front of the step that it warns of", name.value))
}
