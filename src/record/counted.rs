//! What is counted over a whole run, and how long it took.

use jiff::SignedDuration;

use super::model::{Amount, Record, Verification};
use crate::journal::read_time;

/// Something counted over a whole run.
pub(super) struct Counted {
    /// Of what.
    pub(super) what: &'static str,
    /// As a person reads it: `3`, `2 h 05 min`.
    pub(super) words: String,
    /// The number; nothing where it is not known, such as the time to the close of a run that is open.
    pub(super) amount: Option<Amount>,
}

/// Everything that is counted over a run, always the same things in the same order.
pub(super) fn counted(record: &Record) -> Vec<Counted> {
    let verifications = |is_meant: fn(&Verification) -> bool| {
        record.holds.iter().flat_map(|hold| &hold.verifications).filter(|one| is_meant(one)).count()
    };
    let outcome = &record.outcome;
    let closed = record.closed.as_ref().and_then(|closed| between(&record.began.at, &closed.at));
    vec![
        number("deviations", record.deviations.count),
        number("hold points released", verifications(|one| !one.released.is_empty())),
        number("hold points verified again", verifications(|one| one.again_because.is_some())),
        number("readings that failed", outcome.readings_failed),
        number("readings as found outside their limits", outcome.as_found_outside),
        number("computed values that failed", outcome.values_failed),
        number("fasteners that failed", outcome.fasteners_failed),
        number("passes that do not count", outcome.passes_invalid),
        number("sittings", record.sittings.len()),
        time("time at work", at_work(record)),
        time("from beginning to close", closed),
    ]
}

/// A plain number.
pub(super) fn plain(count: usize) -> Amount {
    Amount { number: count.to_string(), unit: String::new(), shown: count.to_string() }
}

fn number(what: &'static str, count: usize) -> Counted {
    Counted { what, words: count.to_string(), amount: Some(plain(count)) }
}

/// In whole minutes as a number, as they stand in words; what is shorter than one in seconds.
fn time(what: &'static str, time: Option<SignedDuration>) -> Counted {
    let Some(time) = time else { return Counted { what, words: "not known".to_owned(), amount: None } };
    let (minutes, seconds) = (time.as_mins(), time.as_secs());
    let (number, unit) = if minutes == 0 { (seconds, "s") } else { (minutes, "min") };
    let shown = format!("{number} {unit}");
    let words =
        if minutes < 60 { shown.clone() } else { format!("{} h {:02} min", minutes / 60, minutes % 60) };
    Counted { what, words, amount: Some(Amount { number: number.to_string(), unit: unit.to_owned(), shown }) }
}

/// The stretches of work taken together.
fn at_work(record: &Record) -> Option<SignedDuration> {
    let each = record.sittings.iter().map(|sitting| between(&sitting.began.at, &sitting.ended.when.at));
    each.sum()
}

fn between(from: &str, to: &str) -> Option<SignedDuration> {
    let (from, to) = (read_time(from).ok()?, read_time(to).ok()?);
    Some(to.timestamp().duration_since(from.timestamp()))
}
