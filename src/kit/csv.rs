//! A kit as CSV (RFC 4180): one table, a first row with the names of the columns, CRLF after each row.

use super::model::Kit;
use super::rows::{COLUMNS, tables};
use crate::source::clean;

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
    let cells: Vec<String> = cells.map(escaped).collect();
    cells.join(",") + "\r\n"
}

/// In quotes, each quote in it doubled, where it holds a comma, a quote or a line break (RFC 4180, 2.6 and 2.7). What a
/// spreadsheet would work out as a formula begins with an apostrophe, so that it stays words.
fn escaped(cell: &str) -> String {
    let words = clean(cell);
    let mark = if words.starts_with(['=', '+', '-', '@', '\t']) { "'" } else { "" };
    if words.contains([',', '"', '\n']) {
        return format!("\"{mark}{}\"", words.replace('"', "\"\""));
    }
    format!("{mark}{words}")
}
