//! A hold point that a ceiling opens again stands when the reading is taken.

use crate::procedure::check::Draft;
use crate::procedure::written::WrittenReading;
use crate::procedure::{Name, Step};
use crate::source::{Code, Diagnostic, Spanned};

/// Nothing to verify again.
pub static CEILING_PLACE: Code = Code {
    name: "ceiling-place",
    summary: "a reading opens a hold point that does not surely stand when it is taken",
    teaching: "\
Beyond its ceiling a reading sends the person back to a hold point that was released before: it is verified again.
So that hold point comes in an earlier step, and nothing ends it before the reading.

Wrong: `[line_pressure]` in step 1.1, and the hold point that it `opens` in step 2.1

Right: the hold point in step 1.1 and `[line_pressure]` in step 1.2
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let readings = draft.declarations.readings.iter();
    let named = readings.filter_map(|entry| Some((&entry.name.value, entry.thing.as_deref()?)));
    named.filter_map(|(name, reading)| judge(draft, name, reading)).collect()
}

fn judge(draft: &Draft<'_>, name: &Name, reading: &WrittenReading) -> Option<Diagnostic> {
    let opens = &reading.handling.ceiling.as_ref()?.opens;
    let hold = Name::from(&opens.value);
    let (at_hold, at_reading) = (draft.step_of_hold(&hold)?, draft.source_of(name)?);
    if !draft.surely_before(at_hold, at_reading) || at_hold.id == at_reading.id {
        return Some(report(opens, at_hold, at_reading, "it comes later, or may"));
    }
    let ended = ender_before(draft, &hold, at_reading)?;
    Some(report(opens, ended, at_reading, "it is ended here already"))
}

/// The step that ends a hold point before another.
fn ender_before<'d>(draft: &'d Draft<'_>, hold: &Name, before: &Step) -> Option<&'d Step> {
    let enders =
        draft.holds().filter(|(_, other)| other.ends.iter().any(|ended| ended.value == hold.as_str()));
    let last = draft.steps_of_hold(hold).rfind(|step| step.id < before.id)?;
    let mut steps = enders.flat_map(|(ender, _)| draft.steps_of_hold(&ender.value));
    steps.find(|step| last.id < step.id && step.id < before.id)
}

fn report(opens: &Spanned<String>, place: &Step, reading: &Step, label: &str) -> Diagnostic {
    let headline = format!("step {} cannot open the hold point `{}`", reading.number, opens.value);
    let diagnostic = Diagnostic::error(&CEILING_PLACE, headline).at(opens.span, "opened beyond the ceiling");
    let diagnostic = diagnostic.also(place.span, label).also(reading.span, "the reading is taken here");
    diagnostic.help("name a hold point of an earlier step that still stands when the reading is taken")
}
