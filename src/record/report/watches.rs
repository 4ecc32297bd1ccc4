//! Limits in force over several steps.

use super::listed;
use super::said::answer;
use super::trail::Trail;
use crate::print::{Row, Section};
use crate::record::model::{LimitInForce, Record};

pub(super) fn section(record: &Record, trail: &mut Trail) -> Option<Section> {
    let rows = record.limits_in_force.iter().map(|limit| row(limit, trail)).collect();
    listed("Limits in force", &["Limit", "Kept or broken", "Since", "Until"], rows)
}

fn row(limit: &LimitInForce, trail: &mut Trail) -> Row {
    let since = limit
        .since
        .as_ref()
        .map(|since| format!("since {}", trail.cite(since, format!("[{}] in force", limit.name))));
    let until = limit
        .until
        .as_ref()
        .map(|until| format!("until {}", trail.cite(until, format!("[{}] over", limit.name))));
    let until =
        if since.is_some() { until.unwrap_or_else(|| "still in force".to_owned()) } else { String::new() };
    let mut notes = Vec::new();
    for reading in &limit.readings {
        let pass = reading.place.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
        let broke =
            reading.broke.as_deref().map_or_else(|| "kept".to_owned(), |why| format!("broken: {why}"));
        let entry = trail.cite(&reading.when, format!("[{}]", reading.name));
        notes.push(format!("{}{pass}: {}, {broke} ({entry})", reading.name, answer(&reading.answer)));
    }
    Row {
        at: format!("{} [{}]", limit.what, limit.name),
        what: limit.verdict.to_uppercase(),
        cells: vec![since.unwrap_or_else(|| "never in force".to_owned()), until],
        notes,
        ..Row::default()
    }
}
