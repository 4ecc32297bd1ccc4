//! How a run came out, in words: what was not as it should be stands in them, also what was put right since.

use crate::record::model::{NotFinished, Outcome};

/// The first words of a record.
pub(in crate::record) fn result(outcome: &Outcome, deviations: usize, open: Option<&NotFinished>) -> String {
    let how = match (open, deviations, failed(outcome).is_empty()) {
        (Some(open), ..) => not_finished(open, deviations),
        (None, 0, true) => "completed without deviation".to_owned(),
        (None, 0, false) => "completed".to_owned(),
        (None, count, _) => format!("completed with {}", counted(count, "deviation", "deviations")),
    };
    let more = failed(outcome).into_iter().chain(found(outcome));
    let more = more.collect::<Vec<_>>().join(", ");
    if more.is_empty() { how } else { format!("{how}; {more}") }
}

fn not_finished(open: &NotFinished, deviations: usize) -> String {
    let (day, time) = open.when.at.split_once('T').unwrap_or((&open.when.at, ""));
    let time = time.get(..5).unwrap_or(time);
    let reason = open.reason.as_ref().map(|reason| format!(", {reason}")).unwrap_or_default();
    let steps = counted(open.steps_open, "step", "steps");
    let deviations = match deviations {
        0 => String::new(),
        count => format!("; {}", counted(count, "deviation", "deviations")),
    };
    format!("not finished: {} {day} {time}{reason}; {steps} open{deviations}", open.how)
}

fn counted(count: usize, one: &str, more: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { more })
}

/// What speaks against it, each with its number.
fn failed(outcome: &Outcome) -> Vec<String> {
    let again = match outcome.taken_again {
        0 => String::new(),
        all if all == outcome.readings_failed => " (taken again)".to_owned(),
        some => format!(" ({some} taken again)"),
    };
    let all = [
        (outcome.readings_failed, "reading failed", "readings failed", again.as_str()),
        (outcome.ceilings_exceeded, "reading beyond its ceiling", "readings beyond their ceiling", ""),
        (outcome.values_failed, "computed value failed", "computed values failed", ""),
        (outcome.fasteners_failed, "fastener failed", "fasteners failed", ""),
        (outcome.limits_broken, "limit in force broken", "limits in force broken", ""),
        (outcome.passes_invalid, "pass does not count", "passes do not count", ""),
        (outcome.repeats_exhausted, "repeat in vain", "repeats in vain", ""),
        (outcome.repeats_given_up, "repeat given up", "repeats given up", ""),
    ];
    let all = all.into_iter().filter(|(count, ..)| *count > 0);
    all.map(|(count, one, more, after)| format!("{}{after}", counted(count, one, more))).collect()
}

/// What was found before an adjustment is a finding, not a failure of the work.
fn found(outcome: &Outcome) -> Option<String> {
    let readings = counted(outcome.as_found_outside, "reading", "readings");
    (outcome.as_found_outside > 0).then(|| format!("as found, {readings} outside the limits"))
}
