//! Text as the conversation speaks it: lines, and what is drawn between them.

use super::{Columns, Gauge, Grid, Line};

/// A part of a text.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A line.
    Line(Line),
    /// Where a reading fell between its limits: drawn on a terminal, told in words elsewhere.
    Gauge(Gauge),
    /// How far a group of places is worked through: drawn on a terminal, told in words elsewhere.
    Grid(Grid),
    /// A table of words: in columns where it fits, row by row elsewhere.
    Columns(Columns),
}

/// Styled text: what [`Ui::say`](super::Ui::say) shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Text {
    pub(super) blocks: Vec<Block>,
}

impl Text {
    /// No text yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Ordinary words; each line of them is a line.
    pub fn plain(words: &str) -> Self {
        words.lines().fold(Self::new(), |text, line| text.line(Line::plain(line)))
    }

    /// The words of each line that has any.
    pub fn lines(&self) -> impl Iterator<Item = String> {
        let words = self.blocks.iter().filter_map(|block| match block {
            Block::Line(line) => Some(line.words()),
            Block::Gauge(_) | Block::Grid(_) | Block::Columns(_) => None,
        });
        words.filter(|words| !words.is_empty())
    }

    /// The same text with one more line.
    #[must_use]
    pub fn line(mut self, line: Line) -> Self {
        self.blocks.push(Block::Line(line));
        self
    }

    /// The same text with an empty line.
    #[must_use]
    pub fn blank(self) -> Self {
        self.line(Line::new())
    }

    /// The same text with a gauge.
    #[must_use]
    pub fn gauge(mut self, gauge: Gauge) -> Self {
        self.blocks.push(Block::Gauge(gauge));
        self
    }

    /// The same text with a grid.
    #[must_use]
    pub fn grid(mut self, grid: Grid) -> Self {
        self.blocks.push(Block::Grid(grid));
        self
    }

    /// The same text with a table.
    #[must_use]
    pub fn columns(mut self, columns: Columns) -> Self {
        self.blocks.push(Block::Columns(columns));
        self
    }

    /// The same text without its empty lines, for a screen that is too small for it.
    #[must_use]
    pub fn tight(mut self) -> Self {
        self.blocks.retain(|block| !block.words().is_empty());
        self
    }

    /// The same text moved in by this many columns more. A gauge stays where it is.
    #[must_use]
    pub fn indented(mut self, columns: usize) -> Self {
        for block in &mut self.blocks {
            match block {
                Block::Line(line) => line.indent += columns,
                Block::Columns(table) => table.indent += columns,
                Block::Gauge(_) | Block::Grid(_) => {}
            }
        }
        self
    }

    /// The same text followed by another one.
    #[must_use]
    pub fn then(mut self, other: Self) -> Self {
        self.blocks.extend(other.blocks);
        self
    }

    /// The words alone, a line a line.
    pub fn words(&self) -> String {
        let lines: Vec<String> = self.blocks.iter().map(Block::words).collect();
        lines.join("\n")
    }
}

impl Block {
    fn words(&self) -> String {
        match self {
            Self::Line(line) => line.words(),
            Self::Gauge(gauge) => gauge.words(),
            Self::Grid(grid) => grid.words(),
            Self::Columns(columns) => columns.words(),
        }
    }
}

impl From<Line> for Text {
    fn from(line: Line) -> Self {
        Self::new().line(line)
    }
}
