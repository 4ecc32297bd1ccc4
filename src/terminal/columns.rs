//! A table of words: drawn in columns where it fits, told row by row elsewhere.

use textwrap::core::display_width;

use super::clean::clean_line;
use super::{Line, Role};

/// The space between two columns.
const GAP: usize = 2;

/// The rows of a table, its headings first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Columns {
    head: Vec<String>,
    rows: Vec<Vec<String>>,
    pub(super) indent: usize,
}

impl Columns {
    /// A table as a document holds it: a row a line, with ` | ` after each cell. None where it is not one.
    pub fn of(words: &str) -> Option<Self> {
        let cells = |line: &str| -> Option<Vec<String>> {
            let line = line.trim_end().strip_suffix('|')?;
            Some(line.split(" | ").map(|cell| clean_line(cell.trim())).collect())
        };
        let mut rows =
            words.lines().filter(|line| !line.trim().is_empty()).map(cells).collect::<Option<Vec<_>>>()?;
        let is_table = rows.len() > 1 && rows.iter().all(|row| row.len() == rows[0].len());
        let head = is_table.then(|| rows.remove(0))?;
        Some(Self { head, rows, indent: 0 })
    }

    /// In columns; row by row where they do not fit.
    pub(super) fn drawn(&self, width: usize) -> Vec<Line> {
        let all = || std::iter::once(&self.head).chain(&self.rows);
        let widths: Vec<usize> = (0..self.head.len())
            .map(|column| all().map(|row| display_width(&row[column])).max().unwrap_or_default())
            .collect();
        let whole = widths.iter().sum::<usize>() + GAP * widths.len().saturating_sub(1);
        if whole + self.indent > width {
            return self.told();
        }
        let row = |role: Role, cells: &Vec<String>| {
            let padded = cells.iter().zip(&widths).map(|(cell, width)| {
                let space = width + GAP - display_width(cell);
                format!("{cell}{}", " ".repeat(space))
            });
            Line::new().with(role, padded.collect::<String>().trim_end()).indent(self.indent)
        };
        let rule = Line::new().with(Role::Faint, "─".repeat(whole)).indent(self.indent);
        let head = [row(Role::Strong, &self.head), rule].into_iter();
        head.chain(self.rows.iter().map(|cells| row(Role::Plain, cells))).collect()
    }

    /// Row by row: the first cell, then each further one under its heading.
    pub(super) fn told(&self) -> Vec<Line> {
        let named = |(heading, cell): (&String, &String)| {
            if heading.is_empty() { cell.clone() } else { format!("{heading}: {cell}") }
        };
        let row = |cells: &Vec<String>| {
            let cells: Vec<String> =
                self.head.iter().zip(cells).filter(|(_, cell)| !cell.is_empty()).map(named).collect();
            Line::plain(cells.join("; ")).indent(self.indent).hang(2)
        };
        self.rows.iter().map(row).collect()
    }

    /// The words alone.
    pub(super) fn words(&self) -> String {
        let lines: Vec<String> = self.told().iter().map(Line::words).collect();
        lines.join("\n")
    }
}
