//! Days of the calendar.

use crate::quantity::{Num, day_after, days_to};
use crate::trade::{Answer, Function, Parameter, Refusal, Shape, Sort};

pub(super) const DATE_PLUS_MONTHS: Function = Function {
    name: "date_plus_months",
    summary: "the same day some months later, or the last of that month where it has no such day",
    parameters: &[
        Parameter::new("date", Sort::Date, "the day to count from"),
        Parameter::number("months", "how many months later; below zero, earlier")
            .at_least("-1200")
            .at_most("1200"),
    ],
    result: Shape::Date,
    call: |given| {
        date_plus_months(given.number("date")?, given.whole("months")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("date", "the calendar does not go so far"))
    },
    assumes: &[],
    source: "Gregorian calendar",
    example: "date_plus_months(2026-08-31, months = 6)",
};

/// The day some months after another, both in days from 1970-01-01; the last of the month where that has no such day.
/// `None` beyond the years that a calendar has.
///
/// ```
/// use bayhand::quantity::parse_date;
/// use bayhand::trade::upkeep::date_plus_months;
///
/// let day = |text| parse_date(text).unwrap().number;
/// assert_eq!(date_plus_months(day("2026-08-31"), 6), Some(day("2027-02-28")));
/// ```
pub fn date_plus_months(date: Num, months: i32) -> Option<Num> {
    let later = jiff::Span::new().try_months(months).ok()?;
    Some(days_to(day_after(date)?.checked_add(later).ok()?))
}
