//! What a hold point reads is taken there and nowhere else, and formulas know which reading is meant.

use std::collections::BTreeMap;

use crate::procedure::Name;
use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic, Spanned};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&HOLD_READING_EARLY, &HOLD_READING_WHICH, &HOLD_READINGS_SHARED];

/// A hold point's reading in an earlier step.
pub static HOLD_READING_EARLY: Code = Code {
    name: "hold-reading-early",
    summary: "a step names a reading that only a later hold point takes",
    teaching: "\
A reading that a hold point lists is taken there and nowhere else. Steps after it can show its value, steps before
it cannot.

Wrong: `Read [volts].` in step 1.1, and `readings = [\"volts\"]` in the hold point of step 2.1

Right: `volts_before` for step 1.1 and `volts` for the hold point
",
};

/// A reading that is taken at several steps, in a formula.
pub static HOLD_READING_WHICH: Code = Code {
    name: "hold-reading-which",
    summary: "a formula speaks of a reading that is taken at each of several steps of a hold point",
    teaching: "\
A hold point that several steps verify takes its readings anew at each of them. A formula would have to say
which is meant. Only the limits of the readings of that hold point may speak of them: they mean those of the
same step.

Wrong: `formula = 'volts - supply'` where the hold point that reads `volts` is verified in steps 1.1 and 3.2

Right: a reading of its own in the step before the formula, or a second hold point with readings of its own
",
};

/// One reading, two hold points.
pub static HOLD_READINGS_SHARED: Code = Code {
    name: "hold-readings-shared",
    summary: "two hold points take the same reading",
    teaching: "\
A reading of a hold point is taken anew each time that hold point is verified, and belongs to it alone: the record
must show which value released which hold point.

Wrong: `readings = [\"volts\"]` in two hold points

Right: `volts_before` in one and `volts_after` in the other
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let mut first = BTreeMap::new();
    let mut found = Vec::new();
    for reading in draft.holds().flat_map(|(_, hold)| &hold.readings) {
        if let Some(place) = first.insert(&reading.value, reading.span) {
            let headline = format!("two hold points take `{}`", reading.value);
            let diagnostic = Diagnostic::error(&HOLD_READINGS_SHARED, headline);
            let diagnostic = diagnostic.at(reading.span, "taken here").also(place, "and here");
            found.push(diagnostic.help("declare a reading for each of them"));
        }
    }
    found.extend(early(draft));
    found.extend(which(draft));
    found
}

/// Formulas that speak of what is read at several steps.
fn which(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let inputs = draft.inputs().iter().chain(&draft.formulas.limit_inputs);
    let inputs = inputs.flat_map(|(owner, inputs)| inputs.iter().map(move |input| (owner, input)));
    inputs.filter_map(|(owner, input)| meant(draft, owner, input)).collect()
}

fn meant(draft: &Draft<'_>, owner: &Name, input: &Spanned<Name>) -> Option<Diagnostic> {
    let hold = &draft.hold_of(&input.value)?.value;
    if draft.hold_of(owner).is_some_and(|own| own.value == *hold) {
        return None;
    }
    let (first, again) = (draft.step_of_hold(hold)?, draft.steps_of_hold(hold).nth(1)?);
    let headline = format!("`{owner}` speaks of `{}`, which is taken at several steps", input.value);
    let diagnostic = Diagnostic::error(&HOLD_READING_WHICH, headline).at(input.span, "which of them?");
    let diagnostic = diagnostic.also(first.span, "taken here").also(again.span, "and here");
    Some(diagnostic.help("take a reading of its own for the formula, in a step before it"))
}

fn early(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for mention in draft.mentions {
        let Some(hold) = draft.hold_of(&mention.name.value) else {
            continue;
        };
        let (Some(step), Some(place)) = (draft.step(mention.step), draft.step_of_hold(&hold.value)) else {
            continue;
        };
        if step.id != place.id && !draft.surely_before(place, step) {
            let headline = format!("`{}` is only taken at a hold point that comes later", mention.name.value);
            let diagnostic =
                Diagnostic::error(&HOLD_READING_EARLY, headline).at(mention.name.span, "not known yet");
            let diagnostic = diagnostic.also(place.span, format!("taken at the hold point `{}`", hold.value));
            found.push(
                diagnostic
                    .help("declare another reading for this step, or move the step below the hold point"),
            );
        }
    }
    found
}
