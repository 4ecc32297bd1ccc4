//! Two records of one procedure side by side: before and after, and whether a change means anything given the instruments.
//!
//! What is compared is what was left: of several attempts the last, of several passes the last that counts, item by item.
//! Two values differ by more than the instruments can explain where the `E_n` number of ISO 13528 is above 1; both
//! uncertainties come from the accuracies that the procedures state, as limits of equal likelihood, with k = 2. Where none
//! is stated, nothing is said.

mod change;
mod counts;
mod csv;
mod model;
mod page;
mod results;
mod steps;
mod texts;

pub use csv::to_csv as compared_csv;
pub use model::{COMPARE_SCHEMA, Change, Comparison, Count, End, Meaning, Side, TextChange};
pub use page::page as compared_page;

use super::model::Record;

/// Compares two records; nothing where they are of different procedures.
pub fn compared(before: &Record, after: &Record) -> Option<Comparison> {
    if before.procedure.id != after.procedure.id {
        return None;
    }
    let mut only = model::Only::default();
    let readings = results::readings(before, after, &mut only);
    let values = results::values(before, after, &mut only);
    let fasteners = results::fasteners(before, after, &mut only);
    let texts = texts::changes(before, after);
    Some(Comparison {
        procedure: before.procedure.id.clone(),
        title: after.procedure.title.clone(),
        before: counts::side(before),
        after: counts::side(after),
        same_vehicle: same_vehicle(before, after),
        steps: if texts.is_empty() { steps::steps(before, after) } else { Vec::new() },
        vehicle_values: steps::vehicle_values(before, after),
        counts: counts::counts(before, after),
        readings,
        values,
        fasteners,
        texts,
        only_before: only.before,
        only_after: only.after,
    })
}

/// Whether it is the same vehicle; nothing where one of the records does not say which it is.
fn same_vehicle(before: &Record, after: &Record) -> Option<bool> {
    let is = |record: &Record| record.vehicle.identification.clone();
    Some(is(before)? == is(after)?)
}
