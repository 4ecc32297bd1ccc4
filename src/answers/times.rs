//! The times in a file of answers.

use jiff::{SignedDuration, ZonedDateTime};
use toml::Spanned as TomlSpanned;

use crate::answers::codes::problem;
use crate::quantity::{Dimension, EntryProblem, parse_literal};
use crate::source::Diagnostic;

/// When the answers begin.
pub(super) fn clock(text: &TomlSpanned<String>) -> Result<ZonedDateTime, Box<Diagnostic>> {
    let moment = text.get_ref().parse::<jiff::Timestamp>().ok();
    let pieces = jiff::fmt::temporal::Pieces::parse(text.get_ref().as_str()).ok();
    let offset = pieces.and_then(|pieces| pieces.to_numeric_offset());
    let zoned = moment.zip(offset).map(|(moment, offset)| moment.to_zoned_datetime(offset.to_time_zone()));
    zoned.ok_or_else(|| {
        problem(text.span(), "write it as 2026-11-21T18:30:00+01:00", "this is not a time with an offset")
    })
}

/// The time from one answer to the next.
pub(super) fn pace(text: &TomlSpanned<String>) -> Result<SignedDuration, Box<Diagnostic>> {
    duration(text.get_ref()).map_err(|message| problem(text.span(), &message, "this time cannot be used"))
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
