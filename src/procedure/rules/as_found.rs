//! A reading as found and the one as left belong together and can be compared.

use std::collections::BTreeSet;

use crate::procedure::check::Draft;
use crate::procedure::written::{WrittenCriterion, WrittenKind, WrittenReading};
use crate::procedure::{Name, Step};
use crate::source::{Code, Diagnostic, Spanned};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&AS_FOUND_ALONE, &AS_LEFT_WRONG];

/// A finding that nothing answers.
pub static AS_FOUND_ALONE: Code = Code {
    name: "as-found-alone",
    summary: "a reading as found has limits, and nothing is read as left",
    teaching: "\
A reading as found that fails holds nothing up: it is a finding. What has to be good is the reading as left, after
the adjustment. Where there is none, nobody ever has to make it good.

Wrong: `as_found = true` with `max = \"800 rpm\"`, and no reading with `as_left`

Right: another reading with `as_left` naming it, or `information_only = true`
",
};

/// Two readings that cannot be compared.
pub static AS_LEFT_WRONG: Code = Code {
    name: "as-left-wrong",
    summary: "`as_left` does not name an earlier reading as found of the same kind",
    teaching: "\
As found and as left are the same reading before and after an adjustment: of the same kind, in units that measure
the same, the one as found in an earlier step.

Wrong: `as_left = \"idle_before\"` in a reading in psi, where `idle_before` is in rpm

Right: both in rpm, and `as_found = true` in `[readings.idle_before]`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let as_left =
        |reading: &'_ WrittenReading| reading.handling.as_left.as_ref().map(|before| before.value.clone());
    let answered: BTreeSet<String> = readings(draft).filter_map(|(_, reading)| as_left(reading)).collect();
    for (name, reading) in readings(draft) {
        let as_left = reading.handling.as_left.as_ref();
        found.extend(as_left.and_then(|before| left(draft, name, reading, before)));
        found.extend(alone(name, reading, answered.contains(name.value.as_str())));
    }
    found
}

fn named<'d>(draft: &'d Draft<'_>, name: &str) -> Option<(&'d Spanned<Name>, &'d WrittenReading)> {
    let entry = draft.declarations.readings.named(name)?;
    Some((&entry.name, entry.thing.as_deref()?))
}

fn readings<'d>(draft: &'d Draft<'_>) -> impl Iterator<Item = (&'d Spanned<Name>, &'d WrittenReading)> {
    draft.declarations.readings.iter().filter_map(|entry| Some((&entry.name, entry.thing.as_deref()?)))
}

fn left(
    draft: &Draft<'_>,
    name: &Spanned<Name>,
    reading: &WrittenReading,
    before: &Spanned<String>,
) -> Option<Diagnostic> {
    let (place, other) = named(draft, &before.value)?;
    let steps = draft.source_of(&place.value).zip(draft.source_of(&name.value));
    let problem = if other.handling.as_found.is_none() {
        "it is not read as found"
    } else if !same_kind(&reading.kind, &other.kind) {
        "it is of another kind"
    } else if steps.is_some_and(|(found, left)| !is_before(draft, found, left)) {
        "it is not surely read before"
    } else {
        return None;
    };
    let headline = format!("`{}` is as left of a reading that does not fit", name.value);
    let diagnostic = Diagnostic::error(&AS_LEFT_WRONG, headline).at(before.span, problem);
    let diagnostic = diagnostic.also(place.span, "declared here");
    Some(diagnostic.help("name a reading with `as_found = true`, of the same kind, from an earlier step"))
}

fn is_before(draft: &Draft<'_>, found: &Step, left: &Step) -> bool {
    found.id != left.id && draft.surely_before(found, left)
}

fn same_kind(one: &WrittenKind, other: &WrittenKind) -> bool {
    match (one, other) {
        (WrittenKind::Quantity { unit, .. }, WrittenKind::Quantity { unit: other, .. }) => {
            unit.value.is_of_the_kind_of(&other.value)
        }
        (WrittenKind::Choice { choices, .. }, WrittenKind::Choice { choices: other, .. }) => choices == other,
        _ => std::mem::discriminant(one) == std::mem::discriminant(other),
    }
}

fn alone(name: &Spanned<Name>, reading: &WrittenReading, is_answered: bool) -> Option<Diagnostic> {
    let here = reading.handling.as_found?;
    let is_both = reading.handling.as_left.is_some();
    if is_both || !(is_judged(&reading.kind) || reading.has_failing_outcome()) || is_answered {
        return None;
    }
    let headline = format!("nothing is read as left after `{}`", name.value);
    let diagnostic = Diagnostic::warning(&AS_FOUND_ALONE, headline).at(here, "nobody has to make it good");
    Some(
        diagnostic.help(format!("add a reading with `as_left = \"{}\"`, or take the limits out", name.value)),
    )
}

fn is_judged(kind: &WrittenKind) -> bool {
    match kind {
        WrittenKind::Quantity { criterion, .. } | WrittenKind::Count(criterion) => {
            matches!(criterion, WrittenCriterion::Limits { .. } | WrittenCriterion::Target { .. })
        }
        WrittenKind::Choice { accept, .. } => accept.is_some(),
        WrittenKind::Date { earliest, latest } => earliest.is_some() || latest.is_some(),
        WrittenKind::Text | WrittenKind::List(_) | WrittenKind::File => false,
    }
}
