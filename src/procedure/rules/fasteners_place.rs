//! A group of fasteners is tightened at one step; at that of a hold point only where the hold point lists it.

use crate::procedure::check::Draft;
use crate::procedure::written::WrittenHold;
use crate::procedure::{Name, Table};
use crate::source::{Code, Diagnostic, Spanned};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&FASTENERS_TWICE];

/// A group in two places.
pub static FASTENERS_TWICE: Code = Code {
    name: "fasteners-twice",
    summary: "two steps name the same group of fasteners, or a hold point does",
    teaching: "\
A group of fasteners is tightened at the one step that names it. A second step that names it would tighten nothing.
To tighten once more, declare a second group, or repeat the section. The step of a hold point only holds: it
tightens what the hold point lists in its `readings`, and then that hold point has one step.

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
        let help = format!("give `[{group}]` a step of its own, or list it in the `readings` of `{hold}`");
        Some(diagnostic.at(here, "tightened here").help(help))
    }));
    found.extend(draft.holds().flat_map(|(name, hold)| held(draft, name, hold)));
    found
}

/// What a hold point tightens, tightened at a later step as well; an earlier one is told by the rule of what hold points
/// take.
fn held(draft: &Draft<'_>, name: &Spanned<Name>, hold: &WrittenHold) -> Vec<Diagnostic> {
    let groups = hold.readings.iter().filter(|group| draft.is(&Name::from(&group.value), Table::Fasteners));
    let place = draft.step_of_hold(&name.value).map(|step| step.id);
    let again = draft.steps_of_hold(&name.value).nth(1);
    let mut found = Vec::new();
    for group in groups {
        let headline =
            format!("the hold point `{}` tightens `{}`, and not only at one step", name.value, group.value);
        let diagnostic =
            Diagnostic::error(&FASTENERS_TWICE, headline).at(group.span, "tightened at the hold point");
        let named = Name::from(&group.value);
        let mentions = draft.mentions_of(&named).iter();
        let elsewhere = mentions
            .map(|mention| (mention.step, mention.name.span))
            .find(|(step, _)| place.is_some_and(|place| *step > place));
        if let Some((_, span)) = elsewhere {
            let help = "say it there without brackets, or declare another group for that step";
            found.push(diagnostic.also(span, "and here").help(help));
        } else if let Some(again) = again {
            let help = "give the second step a hold point of its own, with a group of its own";
            found.push(diagnostic.also(again.span, "verified here as well").help(help));
        }
    }
    found
}

fn twice(draft: &Draft<'_>, again: &crate::procedure::check::Mention) -> Option<Diagnostic> {
    let name = &again.name.value;
    if !draft.is(name, Table::Fasteners) {
        return None;
    }
    let first = draft.mentions_of(name).first()?;
    if first.step == again.step || draft.hold_of(name).is_some() {
        return None;
    }
    let headline = format!("two steps name the fasteners `{name}`");
    let diagnostic = Diagnostic::error(&FASTENERS_TWICE, headline);
    let diagnostic = diagnostic.at(again.name.span, "nothing is tightened here");
    let diagnostic = diagnostic.also(first.name.span, "tightened here");
    Some(diagnostic.help("declare another group for the second place, or say it without brackets"))
}
