//! A kit as CSV (RFC 4180): one table, a first row with the names of the columns, CRLF after each row.

use super::model::Kit;
use super::rows::{COLUMNS, tables};
use crate::print::{csv_row, csv_words};

/// A kit as CSV.
pub fn csv(kit: Kit<'_>) -> String {
    let head = ["list"].into_iter().chain(COLUMNS.iter().map(|(name, _)| *name));
    let mut text = row(head);
    for table in tables(kit) {
        for line in &table.rows {
            let cells = COLUMNS.iter().map(|(_, cell)| cell(line).as_str());
            text.push_str(&row([table.list].into_iter().chain(cells)));
        }
    }
    text
}

fn row<'c>(cells: impl Iterator<Item = &'c str>) -> String {
    csv_row(cells.map(csv_words))
}
