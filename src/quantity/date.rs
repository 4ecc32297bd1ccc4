//! A day of the calendar as a quantity: a place in time, counted in days from 1970-01-01.
//!
//! A date is to a number of days what a temperature on a scale is to a difference: two dates have a difference, a date
//! and a length of time make a date, and dates are neither added nor multiplied.

use jiff::civil::{Date, date};

use super::{Num, Quantity, Unit};

const FIRST: Date = date(1970, 1, 1);
const MINUTES_IN_A_DAY: i64 = 24 * 60;
const LENGTH: usize = "2026-11-01".len();

/// A date as it is written in formulas, `2026-11-01`; `None` when the text is anything else or there is no such day.
///
/// ```
/// use bayhand::quantity::{Num, parse_date};
///
/// let days = parse_date("2026-11-29").unwrap().minus(&parse_date("2026-11-01").unwrap()).unwrap();
/// assert_eq!(days.to_string(), "28 d");
/// assert_eq!(parse_date("2026-02-30"), None);
/// ```
pub fn parse_date(text: &str) -> Option<Quantity> {
    if !looks_like_date(text) || text.len() != LENGTH {
        return None;
    }
    Some(Quantity::new(days_to(text.parse().ok()?), Unit::date()))
}

/// Whether a text begins like a date: four digits, two and two, with hyphens between and no letter or digit after.
pub fn looks_like_date(text: &str) -> bool {
    let digits = |from: usize, to: usize| {
        text.get(from..to).is_some_and(|part| part.bytes().all(|byte| byte.is_ascii_digit()))
    };
    let hyphen = |at: usize| text.get(at..=at) == Some("-");
    let ends = text.get(LENGTH..).is_some_and(|rest| !rest.starts_with(|next: char| next.is_alphanumeric()));
    digits(0, 4) && hyphen(4) && digits(5, 7) && hyphen(7) && digits(8, LENGTH) && ends
}

/// The days from 1970-01-01 to a day.
pub(crate) fn days_to(day: Date) -> Num {
    let days = day.since(FIRST).map_or(0, |span| span.get_days());
    i64::from(days).into()
}

/// The day that is so many days after 1970-01-01; the one that has begun, where it is not whole. `None` beyond the
/// years that a calendar has.
pub(crate) fn day_after(days: Num) -> Option<Date> {
    let whole: i64 = days.floor().with_places(0).parse().ok()?;
    FIRST.checked_add(jiff::Span::new().try_days(whole).ok()?).ok()
}

/// The date as it is written; with hours and minutes where it is not whole.
pub(super) fn shown(days: Num) -> String {
    let Some(day) = day_after(days) else {
        return format!("{} d after {FIRST}", days.shown());
    };
    let minutes = ((days - days_to(day)) * MINUTES_IN_A_DAY.into()).rounded(0);
    let minutes: i64 = minutes.with_places(0).parse().unwrap_or(0);
    match minutes {
        0 => day.to_string(),
        _ => format!("{day} {:02}:{:02}", minutes / 60, minutes % 60),
    }
}
