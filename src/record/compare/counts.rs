//! Which records they are, and what was counted in each.

use super::model::{Count, Side};
use crate::record::counted::counted;
use crate::record::model::Record;

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
    let both = counted(before).into_iter().zip(counted(after));
    both.map(|(before, after)| Count {
        what: before.what.to_owned(),
        before: before.words,
        after: after.words,
    })
    .collect()
}
