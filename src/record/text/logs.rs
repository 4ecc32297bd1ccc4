//! Logs, a row a line.

use super::page::Page;
use super::said::{answer, moment, time};
use crate::record::model::{Log, Row};

pub(super) fn write(page: &mut Page, log: &Log) {
    page.put(0, &format!("{} [{}]", log.what, log.name));
    page.field(2, "a row every", &log.every);
    page.maybe(2, "late after", log.late.as_deref());
    for (index, row) in log.rows.iter().enumerate() {
        write_row(page, index + 1, row);
    }
    if log.rows.is_empty() {
        page.put(2, "no row");
    }
}

fn write_row(page: &mut Page, number: usize, row: &Row) {
    let readings =
        row.readings.iter().map(|reading| format!("{}: {}", reading.name, answer(&reading.answer)));
    page.put(2, &format!("{number}. {}", readings.collect::<Vec<_>>().join("; ")));
    let due = row.due.as_deref().map(|due| format!("due {}, ", time(due))).unwrap_or_default();
    let counts = if row.counts { "; counts" } else { "" };
    page.put(4, &format!("{due}{}{counts}", came(row)));
    if let Some(late) = &row.late {
        page.put(4, &format!("LATE{}", late.strip_prefix("late").unwrap_or(late)));
    }
    match (row.end.as_str(), row.counts) {
        ("counts", true) => {}
        ("counts", false) => page.put(4, "does not count: the count began anew after it"),
        (end, _) => page.put(4, end),
    }
}

/// When a row came and when it was over; one that has no reading never came.
fn came(row: &Row) -> String {
    match &row.came {
        Some(came) => format!("came {}; ended {}", moment(came), moment(&row.when)),
        None if row.readings.is_empty() => format!("ended {}", moment(&row.when)),
        None => format!("came {}", moment(&row.when)),
    }
}
