//! Where a result fell between its limits, as one line of text:
//!
//! ```text
//! 45 |-----------o----| 55     45 |----------------| 55  o     o  45 |-----------
//! ```

use textwrap::core::display_width;

use crate::quantity::{Num, Quantity, Unit};
use crate::record::model::{Amount, Judged};

/// The widest a line gets between its limits.
const WIDEST: usize = 40;
/// Below this nothing can be told apart any more.
const NARROWEST: usize = 9;

/// The drawing, where there are limits, numbers to draw and room to draw them.
///
/// The verdict decides on which side of a limit the mark stands; the place between them is only a picture.
pub(super) fn gauge(result: &Amount, judged: &Judged, room: usize) -> Option<String> {
    let (lower, upper) = (judged.lower.as_ref(), judged.upper.as_ref());
    let left = lower.map(|limit| limit.amount.shown.as_str()).unwrap_or_default();
    let right = upper.map(|limit| limit.amount.shown.as_str()).unwrap_or_default();
    // The ends, two spaces and a mark on each side.
    let width = room.checked_sub(display_width(left) + display_width(right) + 10)?.min(WIDEST);
    if width < NARROWEST || (lower.is_none() && upper.is_none()) {
        return None;
    }
    // One good value, such as a count that must come out: there is nothing between to draw.
    if lower.zip(upper).is_some_and(|(lower, upper)| lower.amount == upper.amount) {
        return None;
    }
    let passes = judged.verdict.ends_with("pass");
    let at = place(result, lower.map(|limit| &limit.amount), upper.map(|limit| &limit.amount))?;
    let (open, close) = (if lower.is_some() { "|" } else { "<" }, if upper.is_some() { "|" } else { ">" });
    let track = if passes { marked(width, at) } else { "-".repeat(width) };
    let line = format!("{left} {open}{track}{close} {right}");
    Some(
        match (passes, at < 0.5) {
            (true, _) => line,
            (false, true) => format!("o  {line}"),
            (false, false) => format!("{line}  o"),
        }
        .trim()
        .to_owned(),
    )
}

/// A line with the mark at a fraction of it.
fn marked(width: usize, at: f64) -> String {
    #[expect(clippy::cast_precision_loss, reason = "columns of a page")]
    let column = at.clamp(0.0, 1.0) * (width - 1) as f64;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "between 0 and the width")]
    let column = column as usize;
    format!("{}o{}", "-".repeat(column), "-".repeat(width - 1 - column))
}

/// The fraction of the way from the lower limit to the upper. With one limit its own size is the measure.
fn place(result: &Amount, lower: Option<&Amount>, upper: Option<&Amount>) -> Option<f64> {
    let unit = Unit::parse(&lower.or(upper)?.unit).ok()?;
    let number = |amount: &Amount| number_in(amount, &unit);
    let result = number(result)?;
    let ends = match (lower.map(number), upper.map(number)) {
        (Some(lower), Some(upper)) => (lower?, upper?),
        (Some(lower), None) => (lower?, lower? + size(lower?, result)),
        (None, Some(upper)) => (upper? - size(upper?, result), upper?),
        (None, None) => return None,
    };
    let at = (result - ends.0) / (ends.1 - ends.0);
    Some(if at.is_finite() { at } else { 0.5 })
}

fn size(limit: f64, result: f64) -> f64 {
    if limit == 0.0 { result.abs() } else { limit.abs() }
}

/// The number as it can be drawn, in the unit of the limits.
fn number_in(amount: &Amount, unit: &Unit) -> Option<f64> {
    let number = Num::from_exact_text(&amount.number)?;
    let own = Unit::parse(&amount.unit).ok()?;
    Some(Quantity::new(number, own).in_unit(unit).ok()?.number.to_f64())
}
