//! Logs, row by row.

use super::said::{answer, time};
use super::table;
use super::trail::Trail;
use crate::print::{Block, Row, Section};
use crate::record::model::{self, Log, Record};

pub(super) fn section(record: &Record, trail: &mut Trail) -> Option<Section> {
    let blocks: Vec<Block> = record.logs.iter().flat_map(|log| blocks(log, trail)).collect();
    (!blocks.is_empty()).then(|| Section::rest("Logs", blocks))
}

fn blocks(log: &Log, trail: &mut Trail) -> Vec<Block> {
    let late = log.late.as_ref().map(|late| format!("; late after: {late}")).unwrap_or_default();
    let head = format!("{} [{}]; a row every: {}{late}", log.what, log.name, log.every);
    if log.rows.is_empty() {
        return vec![Block::Heading(head), Block::Words("no row".to_owned())];
    }
    let rows = log.rows.iter().enumerate();
    let rows = rows.map(|(index, row)| log_row(&log.name, index + 1, row, trail)).collect();
    vec![
        Block::Heading(head.clone()),
        table(&head, &["Row", "Readings", "Due", "Came", "Whether it counts"], rows),
    ]
}

fn log_row(name: &str, number: usize, row: &model::Row, trail: &mut Trail) -> Row {
    let readings: Vec<String> =
        row.readings.iter().map(|reading| format!("{}: {}", reading.name, answer(&reading.answer))).collect();
    let label = format!("[{name}] row {number}");
    let late = row.late.as_ref().map(|late| format!("LATE{}", late.strip_prefix("late").unwrap_or(late)));
    let counts = match (row.end.as_str(), row.counts) {
        ("counts", true) => "counts".to_owned(),
        ("counts", false) => "does not count: the count began anew after it".to_owned(),
        (end, true) => format!("{end}; counts"),
        (end, false) => end.to_owned(),
    };
    Row {
        at: number.to_string(),
        what: readings.join(", "),
        cells: vec![
            row.due.as_deref().map(|due| format!("due {}", time(due))).unwrap_or_default(),
            came(&label, row, trail),
            counts,
        ],
        notes: late.into_iter().collect(),
        ..Row::default()
    }
}

/// When a row came and when it was over; one that has no reading never came.
fn came(label: &str, row: &model::Row, trail: &mut Trail) -> String {
    let ended = trail.cite(&row.when, label);
    match &row.came {
        // By a person's word: this time is no entry's.
        Some(came) => format!("came {}, {}; ended {ended}", time(&came.at), trail.cite(came, label)),
        None if row.readings.is_empty() => format!("ended {ended}"),
        None => format!("came {ended}"),
    }
}

/// The rows of a log that came too late: `row 3 by 3 min`.
pub(super) fn late_rows(log: &Log) -> Vec<String> {
    let rows = log.rows.iter().enumerate();
    let late = rows.filter_map(|(index, row)| Some((index + 1, row.late.as_deref()?)));
    late.map(|(number, late)| format!("row {number}{}", late.strip_prefix("late").unwrap_or(late))).collect()
}
