//! Which records they are, what was counted in each, and how long it took.

use jiff::SignedDuration;

use super::model::{Count, Side};
use crate::journal::read_time;
use crate::record::model::{Record, Verification};

pub(super) fn side(record: &Record) -> Side {
    let odometer = record.vehicle.odometer.as_ref();
    Side {
        run: record.run.clone(),
        revision: record.procedure.revision.clone(),
        began: record.began.at.clone(),
        closed: record.closed.as_ref().map(|closed| closed.at.clone()),
        vehicle: record.vehicle.description.clone(),
        identification: record.vehicle.identification.clone(),
        odometer: odometer.map(|odometer| odometer.typed.clone()),
        result: record.result.clone(),
        hidden: record.redacted.as_ref().map(|redacted| redacted.hidden.clone()).unwrap_or_default(),
        answered_from: record.answered_from.clone(),
        seal: record.seal.sha256.clone(),
    }
}

pub(super) fn counts(before: &Record, after: &Record) -> Vec<Count> {
    let verifications = |record: &Record, is_meant: fn(&Verification) -> bool| {
        record.holds.iter().flat_map(|hold| &hold.verifications).filter(|one| is_meant(one)).count()
    };
    let count = |what: &str, of: &dyn Fn(&Record) -> usize| Count {
        what: what.to_owned(),
        before: of(before).to_string(),
        after: of(after).to_string(),
    };
    let time = |what: &str, of: fn(&Record) -> Option<SignedDuration>| Count {
        what: what.to_owned(),
        before: lasted(of(before)),
        after: lasted(of(after)),
    };
    vec![
        count("deviations", &|record| record.deviations.count),
        count("hold points released", &|record| verifications(record, |one| !one.released.is_empty())),
        count("hold points verified again", &|record| {
            verifications(record, |one| one.again_because.is_some())
        }),
        count("readings that failed", &|record| record.outcome.readings_failed),
        count("readings as found outside their limits", &|record| record.outcome.as_found_outside),
        count("computed values that failed", &|record| record.outcome.values_failed),
        count("fasteners that failed", &|record| record.outcome.fasteners_failed),
        count("passes that do not count", &|record| record.outcome.passes_invalid),
        count("sittings", &|record| record.sittings.len()),
        time("time at work", at_work),
        time("from beginning to close", |record| {
            between(&record.began.at, record.closed.as_ref().map(|closed| closed.at.as_str())?)
        }),
    ]
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

/// `2 h 05 min`, `40 s`.
fn lasted(time: Option<SignedDuration>) -> String {
    let Some(time) = time else { return "not known".to_owned() };
    let (minutes, seconds) = (time.as_mins(), time.as_secs());
    match minutes {
        0 => format!("{seconds} s"),
        1..60 => format!("{minutes} min"),
        _ => format!("{} h {:02} min", minutes / 60, minutes % 60),
    }
}
