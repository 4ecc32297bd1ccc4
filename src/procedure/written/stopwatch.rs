//! `stopwatch`: a reading of time that the program itself can take.

use super::codes::STOPWATCH_NOT_TIME;
use super::readings::WrittenKind;
use crate::quantity::Dimension;
use crate::source::Diagnostic;
use crate::table::Fields;

/// `stopwatch = true`, which only a time can have.
pub(super) fn stopwatch(fields: &mut Fields<'_, '_, '_>, kind: Option<&WrittenKind>) -> bool {
    let Some(here) = fields.mark("stopwatch") else {
        return false;
    };
    let is_time = |kind: &WrittenKind| match kind {
        WrittenKind::Quantity { unit, .. } => unit.value.dimension() == Dimension::TIME,
        _ => false,
    };
    if kind.is_some_and(|kind| !is_time(kind)) {
        let headline = format!("{} is no time that a stopwatch can take", fields.owner());
        let diagnostic = Diagnostic::error(&STOPWATCH_NOT_TIME, headline).at(here, "takes a time");
        fields.scribe.note(diagnostic.help("give the reading a unit of time, such as `unit = \"s\"`"));
    }
    true
}
