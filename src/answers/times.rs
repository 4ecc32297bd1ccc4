//! The times in a file of answers.

use jiff::{SignedDuration, ZonedDateTime};

use crate::answers::codes::problem;
use crate::quantity::{Dimension, EntryProblem, parse_literal};
use crate::table::Fields;

/// When the answers begin.
pub(super) fn clock(fields: &mut Fields<'_, '_, '_>) -> Option<ZonedDateTime> {
    let text = fields.need_text("clock", "2026-11-21T18:30:00+01:00")?;
    let moment = text.value.parse::<jiff::Timestamp>().ok();
    let pieces = jiff::fmt::temporal::Pieces::parse(text.value.as_str()).ok();
    let offset = pieces.and_then(|pieces| pieces.to_numeric_offset());
    let zoned = moment.zip(offset).map(|(moment, offset)| moment.to_zoned_datetime(offset.to_time_zone()));
    if zoned.is_none() {
        let label = "write it as 2026-11-21T18:30:00+01:00";
        fields.scribe.note(problem(text.span, label, "this is not a time with an offset"));
    }
    zoned
}

/// The time from one answer to the next.
pub(super) fn pace(fields: &mut Fields<'_, '_, '_>) -> Option<SignedDuration> {
    let text = fields.text("pace")?;
    let duration = duration(&text.value);
    duration.map_err(|why| fields.scribe.note(problem(text.span, &why, "this time cannot be used"))).ok()
}

/// A time as text: `10 min`.
pub(super) fn duration(text: &str) -> Result<SignedDuration, String> {
    /// No job takes longer; in seconds.
    const HUNDRED_YEARS: f64 = 36_525.0 * 86_400.0;
    let quantity = match parse_literal(text) {
        Err(problem @ EntryProblem::TooLarge) => return Err(format!("`{text}` is too long: {problem}")),
        other => other.ok().filter(|quantity| quantity.unit.dimension() == Dimension::TIME),
    };
    let seconds = quantity.map(|quantity| quantity.base().to_f64()).filter(|seconds| *seconds >= 0.0);
    let seconds = seconds
        .ok_or_else(|| format!("`{text}` is not a time; write a number and a unit, such as \"10 min\""))?;
    let duration = SignedDuration::try_from_secs_f64(seconds).ok().filter(|_| seconds <= HUNDRED_YEARS);
    duration
        .ok_or_else(|| format!("`{text}` is too long: no job takes a hundred years; write a shorter time"))
}
