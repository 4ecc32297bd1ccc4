//! Where a hold point stands: in a step of its own whose order is fixed.

use crate::procedure::check::{Draft, Mention};
use crate::procedure::{Name, Step, Table};
use crate::source::{Code, Diagnostic, Spanned};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&HOLD_IN_FREE_ORDER, &HOLD_MIXED, &HOLD_TWICE, &HOLD_UNREACHED];

/// A hold point among steps in any order.
pub static HOLD_IN_FREE_ORDER: Code = Code {
    name: "hold-in-free-order",
    summary: "a hold point stands in a list whose order is free",
    teaching: "\
The items of a bullet list are done in any order: those beside the hold point may be done before it. A hold point
guards what stands after its list.

Wrong: `- [support]` and `- Crawl under the vehicle.` in one bullet list

Right: both in a numbered list
",
};

/// A hold point that does something else as well.
pub static HOLD_MIXED: Code = Code {
    name: "hold-mixed",
    summary: "the step of a hold point does something else as well",
    teaching: "\
The step that is a hold point only holds: it takes no readings but those that the hold point lists, computes
nothing, and has no parts. So nothing can be half done when it lapses and is verified again.

Wrong: `1. [support] Then read [supply].`

Right: `1. [support]` and `2. Read [supply].`
",
};

/// A hold point in two places.
pub static HOLD_TWICE: Code = Code {
    name: "hold-twice",
    summary: "a step names a hold point again and does not begin with it, or one step names two",
    teaching: "\
The first step that names a hold point verifies it. A later one verifies it anew, from the start, when it begins
with its name. In the midst of a later step the name would look as if something were verified there, and nothing
would be.

Wrong: `1. Release [support].` and later `4. Look at the stands and release [support] again.`

Right: `1. Release [support].` and later `4. [support] The same again, with the weight off the springs.`
",
};

/// A hold point nowhere.
pub static HOLD_UNREACHED: Code = Code {
    name: "hold-unreached",
    summary: "no step names a hold point",
    teaching: "\
A hold point that no step names stops nobody.

Wrong: `[holds.support]` and no `[support]` in a step

Right: a step `1. [support]`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let declared = draft.declarations.holds.iter().map(|entry| &entry.name);
    let mut found: Vec<_> = declared.flat_map(|hold| placed(draft, hold)).collect();
    found.extend(draft.steps.iter().filter_map(|step| two_in_one(draft, step)));
    found
}

fn placed(draft: &Draft<'_>, hold: &Spanned<Name>) -> Vec<Diagnostic> {
    let mut mentions = draft.mentions_of(&hold.value).iter().copied();
    let Some(first) = mentions.next() else {
        return vec![unreached(hold)];
    };
    let mut found = told_of(draft, first);
    for again in mentions.filter(|mention| mention.step != first.step) {
        let verifies = draft.step(again.step).is_some_and(|step| step.hold.as_ref() == Some(&hold.value));
        if verifies {
            found.extend(told_of(draft, again));
        } else {
            found.push(twice(first, again));
        }
    }
    found
}

/// What is said of a step that verifies a hold point.
fn told_of(draft: &Draft<'_>, hold: &Mention) -> Vec<Diagnostic> {
    let step = draft.step(hold.step);
    let mixed = step.and_then(|step| mixed(draft, step, hold));
    mixed.into_iter().chain(step.and_then(|step| free(draft, step, hold))).collect()
}

fn unreached(hold: &Spanned<Name>) -> Diagnostic {
    let diagnostic =
        Diagnostic::error(&HOLD_UNREACHED, format!("no step names the hold point `{}`", hold.value));
    let help = format!("write a step `[{}]` where the job has to stop", hold.value);
    diagnostic.at(hold.span, "it stops nobody").help(help)
}

fn twice(first: &Mention, again: &Mention) -> Diagnostic {
    let name = &again.name.value;
    let diagnostic = Diagnostic::error(
        &HOLD_TWICE,
        format!("a step names the hold point `{name}` again and does not verify it"),
    );
    let diagnostic = diagnostic.at(again.name.span, "named again here").also(first.name.span, "held here");
    diagnostic
        .help(format!("begin the step with `[{name}]` to verify it there anew, or say it without brackets"))
}

fn two_in_one(draft: &Draft<'_>, step: &Step) -> Option<Diagnostic> {
    let holds = draft.mentions_in(step.id).iter();
    let mut holds = holds.filter(|mention| draft.is(&mention.name.value, Table::Holds));
    let first = holds.next()?;
    let other = holds.find(|mention| mention.name.value != first.name.value)?;
    let diagnostic = Diagnostic::error(&HOLD_TWICE, format!("step {} names two hold points", step.number));
    let diagnostic = diagnostic.at(other.name.span, "the second").also(first.name.span, "the first");
    Some(diagnostic.help("give each a step of its own"))
}

fn mixed(draft: &Draft<'_>, step: &Step, hold: &Mention) -> Option<Diagnostic> {
    let taken = step.takes.iter().chain(&step.computes).next();
    let headline = format!("step {} is the hold point `{}` and something else", step.number, hold.name.value);
    let diagnostic = Diagnostic::error(&HOLD_MIXED, headline);
    if let Some(taken) = taken {
        let place = draft.mention_in(step.id, taken).unwrap_or(step.span);
        let diagnostic = diagnostic.at(place, "asked for here").also(hold.name.span, "the hold point");
        let help =
            format!("add \"{taken}\" to the `readings` of the hold point, or give it a step of its own");
        return Some(diagnostic.help(help));
    }
    let part = step.groups.iter().flat_map(|group| &group.steps).next()?;
    let diagnostic =
        diagnostic.at(draft.step(*part)?.span, "a part of it").also(hold.name.span, "the hold point");
    Some(diagnostic.help("make the parts statements under `confirm`, or steps of their own"))
}

fn free(draft: &Draft<'_>, step: &Step, hold: &Mention) -> Option<Diagnostic> {
    if !draft.in_free_order(step) {
        return None;
    }
    let headline = format!("the steps beside the hold point `{}` may be done before it", hold.name.value);
    let diagnostic = Diagnostic::warning(&HOLD_IN_FREE_ORDER, headline);
    let diagnostic = diagnostic.at(hold.name.span, "in a bullet list");
    Some(diagnostic.help("number the list: `1.`, `2.`"))
}
