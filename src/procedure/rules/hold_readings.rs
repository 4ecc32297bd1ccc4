use std::collections::BTreeMap;

use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&HOLD_READING_EARLY, &HOLD_READINGS_SHARED];

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
    found
}

fn early(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for mention in &draft.mentions {
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
