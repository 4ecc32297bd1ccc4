//! When the next service is due, by distance or running hours, and by the calendar.

use std::cmp::Ordering;

use super::calendar::date_plus_months;
use crate::quantity::{Num, day_after};
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape, Sort};

pub(super) const SERVICE_LEFT: Function = Function {
    name: "service_left",
    summary: "how far it is to the next service, in distance or running hours; below zero it is overdue by so much",
    parameters: &[
        Parameter::new("meter", Sort::SameAmount, "what the odometer or hour meter shows").at_least("0"),
        Parameter::new("last", Sort::SameAmount, "what it showed at the last service").at_least("0"),
        Parameter::new("interval", Sort::SameAmount, "the interval of the service information").above("0"),
    ],
    result: Shape::Same,
    call: |given| {
        let (meter, last) = (given.number("meter")?, given.number("last")?);
        service_left(meter, last, given.number("interval")?)
            .map(overdue_or_not)
            .ok_or_else(|| Refusal::of("meter", "must not be less than at the last service"))
    },
    assumes: &["the meter was neither changed nor set back"],
    source: "plain arithmetic",
    example: "service_left(84200 km, last = 60000 km, interval = 60000 km)",
};

pub(super) const TIME_TO_SERVICE: Function = Function {
    name: "time_to_service",
    summary: "how long until the next service, at the use there has been so far; below zero so long ago",
    parameters: &[
        Parameter::new(
            "left",
            Sort::SameAmount,
            "how far it is to the next service; below zero it is overdue",
        ),
        Parameter::new("used", Sort::SameAmount, "how far it went, or ran, in `over`").above("0"),
        Parameter::amount("over", "d", "the time in which it did").above("0"),
    ],
    result: Shape::Amount("d"),
    call: |given| {
        let (left, used) = (given.number("left")?, given.number("used")?);
        time_to_service(left, used, given.number("over")?)
            .map(overdue_or_not)
            .ok_or_else(|| Refusal::of("used", "must be more than zero"))
    },
    assumes: &["the vehicle is used on as it was; an interval in months may end sooner"],
    source: "plain arithmetic",
    example: "time_to_service(35800 km, used = 24200 km, over = 52 wk)",
};

pub(super) const FIRST_DUE: Function = Function {
    name: "first_due",
    summary: "the day on which a service falls due, by distance or running hours or by the calendar, whichever is first",
    parameters: &[
        Parameter::new("today", Sort::Date, "the day from which the pace is reckoned on"),
        Parameter::new("serviced", Sort::Date, "the day of the last service"),
        Parameter::number("months", "the interval of the service information in months")
            .at_least("1")
            .at_most("240"),
        Parameter::new(
            "left",
            Sort::SameAmount,
            "how far it is to the next service, as service_left gives it",
        ),
        Parameter::new("used", Sort::SameAmount, "how far it went, or ran, in `over`").above("0"),
        Parameter::amount("over", "d", "the time in which it did").above("0"),
    ],
    result: Shape::Date,
    call: first_due_row,
    assumes: &["the vehicle is used on as it was"],
    source: "the earlier of two days",
    example: "first_due(2026-11-29, serviced = 2026-03-01, months = 12, left = 4000 km, used = 11000 km, over = 273 d)",
};

/// How far it is to the next service, all in one unit; exact. `None` when the meter shows less than at the last one.
///
/// ```
/// use bayhand::trade::upkeep::service_left;
///
/// assert_eq!(service_left(84_200.into(), 60_000.into(), 60_000.into()), Some(35_800.into()));
/// ```
pub fn service_left(meter: Num, last: Num, interval: Num) -> Option<Num> {
    (meter >= last).then(|| last + interval - meter)
}

/// How long it takes to use up `left` at the pace of `used` in `over`, in the unit of `over`; exact. `None` when
/// nothing was used.
///
/// ```
/// use bayhand::trade::upkeep::time_to_service;
///
/// assert_eq!(time_to_service(500.into(), 100.into(), 7.into()), Some(35.into()));
/// ```
pub fn time_to_service(left: Num, used: Num, over: Num) -> Option<Num> {
    (left * over).checked_div(used)
}

/// The day on which the first of two intervals ends, all in days: the calendar's is `by_time`, the other ends `left` days
/// after `today`, which below zero is in the past; the day that has begun counts.
///
/// ```
/// use bayhand::trade::upkeep::first_due;
///
/// assert_eq!(first_due(100.into(), 130.into(), 20.into()), 120.into());
/// assert_eq!(first_due(100.into(), 110.into(), 20.into()), 110.into());
/// ```
pub fn first_due(today: Num, by_time: Num, left: Num) -> Num {
    by_time.min((today + left).floor())
}

fn first_due_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let today = given.number("today")?;
    let by_time = date_plus_months(given.number("serviced")?, given.whole("months")?)
        .ok_or_else(|| Refusal::of("serviced", "the calendar does not go so far"))?;
    let left = time_to_service(given.number("left")?, given.number("used")?, given.number("over")?)
        .ok_or_else(|| Refusal::of("used", "must be more than zero"))?;
    let number = first_due(today, by_time, left);
    let by_distance = first_due(today, today + left, left);
    let which = match by_time.cmp(&by_distance) {
        Ordering::Equal => "time and distance fall due on the same day".to_owned(),
        Ordering::Less => format!("time falls due first, distance or running hours{}", on(by_distance)),
        Ordering::Greater => format!("distance or running hours fall due first, time{}", on(by_time)),
    };
    let overdue = today - number;
    let note = if overdue > Num::ZERO { format!("{which}; overdue by {} d", overdue.shown()) } else { which };
    Ok(Answer::Noted { number, note })
}

fn on(days: Num) -> String {
    day_after(days).map_or_else(String::new, |day| format!(" on {day}"))
}

fn overdue_or_not(left: Num) -> Answer {
    if left.is_negative() {
        return Answer::Noted { number: left, note: "the service is overdue by so much".to_owned() };
    }
    Answer::Number(left)
}
