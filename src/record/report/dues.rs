//! What falls due after the run.

use super::trail::Trail;
use crate::record::model::Record;

/// Nothing where there is nothing of the kind.
pub(super) fn facts(record: &Record, trail: &mut Trail) -> Vec<(&'static str, String)> {
    let due = |trail: &mut Trail, due: &crate::record::model::Due| {
        let odometer =
            due.odometer.as_ref().map(|odometer| format!("; odometer {}", super::said::amount(odometer)));
        let day = due.by_calendar.as_ref().map(|day| format!("; by the calendar {day}"));
        let estimate = due.estimate.as_ref().map(|day| format!("; an estimate: {day}"));
        let more: String = odometer.into_iter().chain(day).chain(estimate).collect();
        let set = trail.cite(&due.set, "due");
        format!(
            "{} [{}]: {}{more} (reckoned from {}, step {}, {set})",
            due.what, due.name, due.words, due.since, due.step
        )
    };
    record.dues.iter().map(|one| ("Due", due(trail, one))).collect()
}
