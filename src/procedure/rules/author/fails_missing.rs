//! Where a limit can fail, something says what to do then.

use std::collections::BTreeSet;

use crate::procedure::check::Draft;
use crate::procedure::written::{WrittenCriterion, WrittenKind, WrittenReading};
use crate::procedure::{Name, Sides};
use crate::source::{Code, Diagnostic, Spanned};

/// A limit without a way on.
pub static FAILS_MISSING: Code = Code {
    name: "fails-missing",
    summary: "nothing is said for the case that a limit is not met",
    teaching: "\
A reading that fails stops the job. Say what then: `fails` tells the person what to do, a condition that speaks of
the reading opens steps for it, a repeat that speaks of it does it again.

Wrong: `max = \"30 psi\"` and nothing else

Right: the same with `fails = \"Turn the regulator down, then read again.\"`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let foreseen = foreseen(draft);
    let readings = draft.declarations.readings.iter().filter_map(|entry| {
        let reading = entry.thing.as_deref()?;
        // What is read as found holds nothing up: nobody would ever see what to do about it.
        let holds_up = judged(reading) && reading.handling.as_found.is_none();
        (holds_up && is_silent(reading.fails.as_ref(), &reading.sides)).then_some(&entry.name)
    });
    let values = draft.declarations.values.iter().filter_map(|entry| {
        let value = entry.thing.as_deref()?;
        let silent = is_silent(value.fails.as_ref(), &value.sides);
        (judges(&value.criterion) && silent).then_some(&entry.name)
    });
    readings.chain(values).filter(|name| !foreseen.contains(&name.value)).map(report).collect()
}

/// Whether nothing is said for either side.
const fn is_silent(fails: Option<&String>, sides: &Sides) -> bool {
    fails.is_none() && sides.too_low.is_none() && sides.too_high.is_none()
}

fn judged(reading: &WrittenReading) -> bool {
    let by_limits = match &reading.kind {
        WrittenKind::Quantity { criterion, .. } | WrittenKind::Count(criterion) => judges(criterion),
        WrittenKind::Choice { accept, .. } => accept.is_some(),
        WrittenKind::Date { earliest, latest } => earliest.is_some() || latest.is_some(),
        WrittenKind::Text | WrittenKind::List(_) | WrittenKind::File => false,
    };
    by_limits || reading.has_failing_outcome()
}

const fn judges(criterion: &WrittenCriterion) -> bool {
    matches!(criterion, WrittenCriterion::Limits { .. } | WrittenCriterion::Target { .. })
}

/// What conditions and repeats rest on, also through computed values.
fn foreseen(draft: &Draft<'_>) -> BTreeSet<Name> {
    let conditions = draft.declarations.conditions.iter().map(|entry| &entry.name.value);
    let inputs = conditions.filter_map(|name| draft.inputs().get(name));
    let inputs = inputs.chain(draft.formulas.end_inputs.values()).flatten();
    let mut open: Vec<Name> = inputs.map(|input| input.value.clone()).collect();
    let mut seen = BTreeSet::new();
    while let Some(name) = open.pop() {
        if seen.insert(name.clone()) {
            open.extend(draft.inputs().get(&name).into_iter().flatten().map(|input| input.value.clone()));
        }
    }
    seen
}

fn report(name: &Spanned<Name>) -> Diagnostic {
    let headline = format!("nothing is said for the case that `{}` fails", name.value);
    let diagnostic = Diagnostic::warning(&FAILS_MISSING, headline).at(name.span, "it can fail: and then?");
    diagnostic.help("add `fails = \"...\"` with what to do then")
}
