//! A limit in force comes to an end, and measures the same as the readings that it judges.

use crate::procedure::check::Draft;
use crate::procedure::written::{WrittenKind, WrittenWatch};
use crate::procedure::{Name, Step};
use crate::source::{Code, Diagnostic, Spanned};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&WATCH_NEVER_ENDS, &WATCH_UNIT];

/// A limit for ever.
pub static WATCH_NEVER_ENDS: Code = Code {
    name: "watch-never-ends",
    summary: "a limit in force is named in one step only, so that it never ends",
    teaching: "\
A limit in force begins when the first step that names it is done, and ends when the last one is. Named once, it
would stay in force until the job is closed, and nobody would know when it may be let go.

Wrong: `[cool]` only in step 2.1

Right: `[cool]` in step 2.1 and again in step 4.2, where it no longer matters
",
};

/// A limit of another kind than what it judges.
pub static WATCH_UNIT: Code = Code {
    name: "watch-unit",
    summary: "a limit in force judges a reading of another kind",
    teaching: "\
A limit in force is held against each reading in its list while it lasts. They have to measure the same.

Wrong: `unit = \"°C\"` with `readings = [\"line_pressure\"]`, a reading in bar

Right: `readings = [\"fluid_temp\"]`, a reading in °C or °F
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for entry in draft.declarations.watches.iter() {
        found.extend(endless(draft, &entry.name));
        let readings =
            entry.thing.iter().flat_map(|watch| watch.readings.iter().map(move |name| (watch, name)));
        found.extend(readings.filter_map(|(watch, name)| misfit(draft, &entry.name, watch, name)));
    }
    found
}

fn endless(draft: &Draft<'_>, watch: &Spanned<Name>) -> Option<Diagnostic> {
    let begins = draft.steps_with(&watch.value).find(|step| step.watch_begins.contains(&watch.value))?;
    let ends = |step: &&Step| step.id != begins.id && step.watch_ends.contains(&watch.value);
    if draft.steps_with(&watch.value).any(|step| ends(&step)) {
        return None;
    }
    let headline = format!("the limit in force `{}` never ends", watch.value);
    let place = draft.mention_in(begins.id, &watch.value).unwrap_or(begins.span);
    let diagnostic = Diagnostic::error(&WATCH_NEVER_ENDS, headline).at(place, "it begins here");
    Some(
        diagnostic
            .help(format!("name `[{}]` again in the step after which it no longer counts", watch.value)),
    )
}

fn misfit(
    draft: &Draft<'_>,
    watch: &Spanned<Name>,
    written: &WrittenWatch,
    reading: &Spanned<String>,
) -> Option<Diagnostic> {
    let measured = draft.declarations.readings.thing(&reading.value)?;
    let unit = &written.unit.value;
    let problem = match &measured.kind {
        WrittenKind::Quantity { unit: own, .. } if own.value.is_of_the_kind_of(unit) => {
            return None;
        }
        WrittenKind::Quantity { unit: own, .. } => format!("this is {}", own.value.measures()),
        _ => "this is no number with a unit".to_owned(),
    };
    let headline = format!("the limit in force `{}` judges a reading of another kind", watch.value);
    let diagnostic = Diagnostic::error(&WATCH_UNIT, headline).at(reading.span, problem);
    let diagnostic = diagnostic.also(written.unit.span, format!("its limits are {}", unit.measures()));
    Some(diagnostic.help("take the reading out of the list, or give the limit its kind of unit"))
}
