//! What the last closed run of the same procedure on the same vehicle has left: it stands beside the next reading.

use std::collections::BTreeMap;

use jiff::ZonedDateTime;

use crate::catalogue::{Entry, Summary};
use crate::journal::{RunId, Runs};
use crate::procedure::{Name, Occasion};
use crate::run::{Answered, View};
use crate::session::StoredRun;
use crate::terminal::Earlier;

/// The newest of them, by the index of the closed runs; only runs of the same title and vehicle are read.
pub(super) fn earlier(runs: &Runs, closed: &BTreeMap<RunId, Entry>, own: &StoredRun) -> Option<Earlier> {
    let vehicle = vehicle_of(own).0?;
    let procedure = &own.book.procedure;
    let is_same = |run: &Summary| {
        run.identification.as_ref() == Some(&vehicle)
            && run.procedure == procedure.id()
            && run.title == procedure.title()
    };
    let named = closed.iter().rev().filter(|(id, _)| id.is_of(procedure.id()));
    let mut same = named.filter(|(_, entry)| entry.summary().as_ref().is_some_and(is_same));
    let last = same.find_map(|(id, _)| StoredRun::read(runs, id).ok())?;
    let at = last.state.closed.as_ref().map(|stamp| stamp.at.clone())?;
    Some(told(&last, &at))
}

/// What identifies the vehicle of a run, and what its people call it: by the first alone two runs are of one vehicle.
pub(super) fn vehicle_of(run: &StoredRun) -> (Option<String>, Option<String>) {
    let sheet = run.book.sheet.as_ref();
    (sheet.map(|sheet| sheet.identification().to_owned()), sheet.map(|sheet| sheet.vehicle().to_owned()))
}

fn told(run: &StoredRun, closed: &ZonedDateTime) -> Earlier {
    let view = run.view(closed);
    let odometer = run.state.odometer.as_ref().map(|entry| entry.typed.to_string());
    let at = odometer.as_ref().map(|odometer| format!(", {odometer}")).unwrap_or_default();
    let readings = run.book.procedure.readings().names();
    let readings = readings.filter_map(|name| Some((name.clone(), left(view, name)?)));
    Earlier {
        run: format!("{}{at}, run {}", closed.strftime("%Y-%m-%d"), run.id.as_str()),
        readings: readings.collect(),
        odometer,
    }
}

/// What a reading came to; of one that was read before an adjustment, what was left after it.
fn left(view: View<'_>, name: &Name) -> Option<String> {
    let mut readings = view.book.procedure.readings().iter();
    let is_left = |occasion: &Occasion| matches!(occasion, Occasion::AsLeft(found) if found == name);
    let left = readings.find(|(_, reading)| is_left(&reading.occasion)).map(|(name, _)| name);
    let value = |name: &Name| match &view.latest(name)?.value {
        Answered::File(_) => None,
        value => Some(value.shown()),
    };
    let left = left.and_then(value).map(|left| format!("{left} as left"));
    left.or_else(|| value(name))
}
