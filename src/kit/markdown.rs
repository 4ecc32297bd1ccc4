//! A kit as Markdown: a heading and a table for each list. Only columns in which something stands are there.

use super::model::Kit;
use super::rows::{COLUMNS, Row, Table, tables};
use crate::source::clean;

/// A kit as Markdown.
pub fn markdown(kit: Kit<'_>) -> String {
    let (title, what) = match kit {
        Kit::Procedure(kit) => (&kit.title, format!("What to lay out. Revision {}.", kit.revision)),
        Kit::Job(kit) => (&kit.title, kit.what.clone()),
    };
    let head = format!("# {}\n\n{}\n", escaped(title), escaped(&what));
    tables(kit).iter().filter(|table| !table.rows.is_empty()).fold(head, |text, table| text + &shown(table))
}

fn shown(table: &Table) -> String {
    let is_used = |cell: &fn(&Row) -> &String| table.rows.iter().any(|row| !cell(row).is_empty());
    let columns: Vec<_> = COLUMNS.iter().filter(|(_, cell)| is_used(cell)).collect();
    let head = line(columns.iter().map(|(name, _)| (*name).to_owned()));
    let rule = line(columns.iter().map(|_| "---".to_owned()));
    let rows = table.rows.iter().map(|row| line(columns.iter().map(|(_, cell)| escaped(cell(row)))));
    let procedure = table.procedure.as_ref().map(|title| format!("{title}: ")).unwrap_or_default();
    format!(
        "\n## {}\n\n{head}{rule}{}",
        escaped(&format!("{procedure}{}", table.list)),
        rows.collect::<String>()
    )
}

fn line(cells: impl Iterator<Item = String>) -> String {
    let cells: Vec<String> = cells.collect();
    format!("| {} |\n", cells.join(" | "))
}

/// A backslash before all that CommonMark, or a table, would take for markup; on one line.
fn escaped(words: &str) -> String {
    const MARKUP: &[char] = &['\\', '`', '*', '_', '[', ']', '<', '>', '|', '~', '&', '#', '!'];
    let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut text = String::with_capacity(words.len());
    for letter in clean(&words).chars() {
        if MARKUP.contains(&letter) {
            text.push('\\');
        }
        text.push(letter);
    }
    text
}
