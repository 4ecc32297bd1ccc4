//! What the work went by: the procedure and the values of the vehicle, each with its source.

use super::said::{answer, converted, converted_answer, typed};
use super::table;
use super::trail::Trail;
use crate::print::{Block, Row, Section};
use crate::record::model::{Record, Replaced, VehicleValue};

#[expect(clippy::unnecessary_wraps, reason = "one of the sections, of which some are not there")]
pub(super) fn section(record: &Record, trail: &mut Trail) -> Option<Section> {
    let procedure = &record.procedure;
    let mut facts = vec![
        ("Author".to_owned(), procedure.author.clone()),
        ("Applicability".to_owned(), procedure.scope.clone()),
        ("Level of use".to_owned(), procedure.level_of_use.clone()),
        ("bayhand".to_owned(), format!("{}, record format {}", record.engine, record.format)),
    ];
    for linked in &procedure.linked {
        let words =
            format!("{} ({}), revision {}, {}", linked.title, linked.address, linked.revision, linked.date);
        facts.push(("Runs within it".to_owned(), format!("{words}, by {}", linked.author)));
    }
    let mut blocks = vec![Block::Facts(facts)];
    if !record.vehicle.values.is_empty() {
        let rows = record.vehicle.values.iter().map(|value| row(value, trail)).collect();
        blocks.push(table("Vehicle values", &["Value", "Name", "Is", "Source", "Entered"], rows));
    }
    Some(Section::rest("Procedure and vehicle values", blocks))
}

fn row(value: &VehicleValue, trail: &mut Trail) -> Row {
    let entered = value.entered.as_ref().map(|entered| trail.cite(entered, format!("[{}]", value.name)));
    let mut notes: Vec<String> = converted_answer(&value.value).into_iter().collect();
    notes.extend(replaced(&value.before, &value.name, trail));
    Row {
        at: value.what.clone(),
        what: format!("[{}]", value.name),
        cells: vec![answer(&value.value), value.source.clone(), entered.unwrap_or_default()],
        notes,
        ..Row::default()
    }
}

/// The odometer, with what it was said to be before.
pub(super) fn odometer(record: &Record, trail: &mut Trail) -> Option<String> {
    let vehicle = &record.vehicle;
    let odometer = vehicle.odometer.as_ref()?;
    let said = std::iter::once(typed(odometer)).chain(converted(odometer));
    let said: Vec<String> = said.chain(replaced(&vehicle.odometer_before, "odometer", trail)).collect();
    Some(said.join("; "))
}

/// What stood there before it was corrected.
fn replaced(before: &[Replaced], name: &str, trail: &mut Trail) -> Vec<String> {
    let words = before.iter().map(|replaced| {
        let source = replaced.source.as_ref().map(|source| format!(" ({source})")).unwrap_or_default();
        let entry = trail.cite(&replaced.when, format!("[{name}] corrected"));
        format!("corrected, before: {}{source}: {}, {entry}", answer(&replaced.value), replaced.reason)
    });
    words.collect()
}
