//! A page as plain text.

use textwrap::core::display_width;

use super::lines::Lines;
use super::{Block, Grid, Mark, Page, Row, Section, Style, Table, Tick};
use crate::source::clean;

/// The narrowest that is written; what is asked narrower gets this.
pub const NARROWEST: usize = 40;

/// How far what belongs to a line stands in.
const IN: usize = 2;

/// The page as text, no line wider than `width` (at least [`NARROWEST`]) but what cannot be broken.
pub fn text(page: &Page, width: usize) -> String {
    let mut paper = Paper(Lines::new(width.max(NARROWEST)));
    paper.put(0, &page.kind);
    paper.put(0, &page.title);
    for warning in &page.warnings {
        paper.blank();
        paper.put(0, warning);
    }
    page.sections.iter().for_each(|section| paper.section(section));
    paper.0.text
}

struct Paper(Lines);

impl Paper {
    fn section(&mut self, section: &Section) {
        self.blank();
        if !section.heading.is_empty() {
            self.put(0, &section.heading.to_uppercase());
        }
        section.blocks.iter().for_each(|block| self.block(block));
    }

    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading(words) => self.put(0, &format!("- {words}")),
            Block::Words(words) => self.put(0, words),
            Block::Items(items) => items.iter().for_each(|item| self.put(0, item)),
            Block::Facts(facts) => {
                for (name, words) in facts {
                    self.put(0, &format!("{name}: {words}"));
                }
            }
            Block::Table(table) => self.table(table),
            Block::Hazard(signal, words) => self.put(0, &format!("{signal}: {words}")),
            Block::Ticks(ticks) => ticks.iter().for_each(|tick| self.tick(tick)),
            Block::Kept(blocks) => blocks.iter().for_each(|block| self.block(block)),
            Block::Long { short, .. } => short.iter().for_each(|block| self.block(block)),
            Block::Grid(grid) => self.grid(grid),
            Block::Picture(picture) => self.put(0, &picture.said()),
            Block::Figure(caption, figure) => {
                self.put(0, &format!("{caption}: {}", figure.words()));
                for line in figure.drawn(self.0.width - IN) {
                    self.drawn(IN, &line);
                }
            }
        }
    }

    fn tick(&mut self, tick: &Tick) {
        let mark = match tick.mark {
            Mark::None => "",
            Mark::Open => "[ ] ",
            Mark::Done => "[x] ",
        };
        let choices: Vec<String> = tick.choices.iter().map(|choice| format!("  [ ] {choice}")).collect();
        let choices = choices.concat();
        let blanks: Vec<String> = tick.blanks.iter().map(|blank| format!("  {blank} ________")).collect();
        let blanks = blanks.concat();
        self.put(if tick.within { 2 * IN } else { 0 }, &format!("{mark}{}{choices}{blanks}", tick.words));
    }

    fn table(&mut self, table: &Table) {
        match table.style {
            Style::Rows => table.rows.iter().for_each(|row| self.row(row, &[])),
            Style::Named(names) => table.rows.iter().for_each(|row| self.row(row, names)),
            Style::Run => {
                let rows: Vec<String> = table.rows.iter().map(|row| head(row, &[])).collect();
                self.put(0, &rows.join("; "));
            }
            Style::Flow => self.flow(&table.rows),
        }
    }

    /// `  8 09:14:40   9 09:15:20`.
    fn flow(&mut self, rows: &[Row]) {
        let width = |text: &String| display_width(&clean(text));
        let widest = |of: fn(&Row) -> &String| rows.iter().map(of).map(width).max().unwrap_or_default();
        let (at, what) = (widest(|row| &row.at), widest(|row| &row.what));
        for line in rows.chunks((self.0.width / (at + what + 3)).max(1)) {
            let cells = line.iter().map(|row| {
                let before = " ".repeat(at - width(&row.at));
                format!("{before}{} {}{}", row.at, row.what, " ".repeat(what - width(&row.what)))
            });
            let line = cells.collect::<Vec<_>>().join("  ");
            self.drawn(0, line.trim_end());
        }
    }

    fn row(&mut self, row: &Row, names: &[&str]) {
        let head = head(row, names);
        let notes = row.notes.join("; ");
        let drawn = row.figure.as_ref().map(|figure| figure.drawn(self.0.width - IN)).unwrap_or_default();
        match drawn.split_last() {
            Some((last, before)) => {
                self.put(0, &head);
                for line in before {
                    self.drawn(IN, line);
                }
                // Beside the drawing, where there is room.
                let beside = format!("{last}  {notes}");
                if display_width(&clean(&beside)) + IN <= self.0.width {
                    self.drawn(IN, beside.trim_end());
                } else {
                    self.drawn(IN, last);
                    self.put(IN, &notes);
                }
            }
            None if notes.is_empty() => self.put(0, &head),
            None => {
                let joint = if head.ends_with(['.', ':']) { " " } else { "; " };
                self.put(0, &format!("{head}{joint}{notes}"));
            }
        }
    }

    /// In columns where they fit, else row by row.
    fn grid(&mut self, grid: &Grid) {
        let widths = widths(grid);
        if widths.iter().sum::<usize>() + 2 * widths.len() > self.0.width {
            for (name, cells) in &grid.rows {
                let cells = grid.columns.iter().zip(cells).filter(|(_, cell)| !cell.is_empty());
                let cells: Vec<String> = cells.map(|(column, cell)| format!("{column} {cell}")).collect();
                self.put(IN, &format!("{} {name}: {}", grid.corner, cells.join("; ")));
            }
            return;
        }
        let head = std::iter::once(&grid.corner).chain(&grid.columns);
        self.columns(&widths, head);
        for (name, cells) in &grid.rows {
            self.columns(&widths, std::iter::once(name).chain(cells));
        }
    }

    fn columns<'a>(&mut self, widths: &[usize], cells: impl Iterator<Item = &'a String>) {
        let cells = cells.zip(widths).map(|(cell, width)| {
            let cell = clean(cell);
            format!("{cell}{}", " ".repeat(width.saturating_sub(display_width(&cell)) + 2))
        });
        let line: String = cells.collect();
        self.drawn(IN, line.trim_end());
    }

    fn blank(&mut self) {
        self.0.blank();
    }

    fn put(&mut self, indent: usize, words: &str) {
        self.0.put(indent, words);
    }

    /// A line that is the right width already.
    fn drawn(&mut self, indent: usize, line: &str) {
        self.0.text.push_str(&" ".repeat(indent));
        self.0.text.push_str(&clean(line));
        self.0.text.push('\n');
    }
}

/// `3.3 pressure lost: 0.5 psi; pass`, with a word before each cell that has one: `3.3 pressure lost: before 0.5 psi`.
fn head(row: &Row, words: &[&str]) -> String {
    let named: Vec<&str> =
        [&row.at, &row.what].into_iter().map(String::as_str).filter(|it| !it.is_empty()).collect();
    let cells = row.cells.iter().enumerate().filter(|(_, cell)| !cell.is_empty());
    let cells = cells.map(|(place, cell)| match words.get(place) {
        Some(word) if !word.is_empty() => format!("{word} {cell}"),
        _ => cell.clone(),
    });
    let cells: Vec<String> = cells.collect();
    let colon = if cells.is_empty() || named.is_empty() { "" } else { ": " };
    format!("{}{colon}{}", named.join(" "), cells.join("; "))
}

fn widths(grid: &Grid) -> Vec<usize> {
    let width = |text: &String| display_width(&clean(text));
    let named = grid.rows.iter().map(|(name, _)| width(name)).chain([width(&grid.corner)]).max();
    let columns = grid.columns.iter().enumerate().map(|(index, column)| {
        let cells = grid.rows.iter().filter_map(|(_, cells)| cells.get(index)).map(width);
        cells.chain([width(column)]).max().unwrap_or_default()
    });
    std::iter::once(named.unwrap_or_default()).chain(columns).collect()
}
