//! How long people were at a job, and what that is worth.

use jiff::SignedDuration;

use super::model::Hours;
use crate::job::standing::time_at;
use crate::quantity::{Num, Quantity, Unit};
use crate::record::amount;
use crate::session::StoredRun;

/// What an hour is worth, in a vehicle sheet.
const RATE: &str = "hour_rate";

pub(super) fn hours(runs: &[StoredRun]) -> Hours {
    let total: SignedDuration = runs.iter().map(time_at).sum();
    let sheet = runs.last().and_then(|run| run.book.sheet.as_ref());
    let given = sheet.and_then(|sheet| sheet.value(RATE));
    let rate = given.and_then(|value| per_hour(value.quantity.as_ref()?));
    let worth = rate.as_ref().and_then(|rate| worth(total, rate));
    Hours {
        time: time(total),
        source: given.filter(|_| rate.is_some()).map(|value| value.source.clone()),
        rate: rate.as_ref().map(amount),
        worth: worth.as_ref().map(amount),
    }
}

/// `61 h 05 min`.
pub(super) fn time(length: SignedDuration) -> String {
    let minutes = length.as_mins();
    format!("{} h {:02} min", minutes / 60, minutes % 60)
}

fn per_hour(rate: &Quantity) -> Option<Quantity> {
    rate.in_unit(&Unit::parse("money/h").ok()?).ok()
}

/// Whole minutes are valued, as they are told.
fn worth(total: SignedDuration, rate: &Quantity) -> Option<Quantity> {
    let hours = Num::from(total.as_mins()).checked_div(60.into())?;
    Some(Quantity::new(hours * rate.number, Unit::parse("money").ok()?))
}
