//! Text as the conversation speaks it: lines of pieces with roles.

use super::{Gauge, Grid};

/// What a piece of text is. How it looks is decided elsewhere; what it says stands in its words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// Ordinary words.
    Plain,
    /// What matters most in the line.
    Strong,
    /// What can be passed over.
    Faint,
    /// A reading that passed, something that is well.
    Good,
    /// A reading that failed, something that is not well.
    Bad,
    /// The signal word DANGER.
    Danger,
    /// The signal word WARNING.
    Warning,
    /// The signal word CAUTION.
    Caution,
    /// The signal word NOTICE.
    Notice,
    /// A protection in force.
    Protection,
}

/// Words with one role.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// The words. Control characters in them are made harmless when they are shown.
    pub words: String,
    /// What they are.
    pub role: Role,
}

/// One line, wrapped where it is too long.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Line {
    pub(super) pieces: Vec<Piece>,
    pub(super) indent: usize,
    pub(super) hang: usize,
}

impl Line {
    /// An empty line.
    pub fn new() -> Self {
        Self::default()
    }

    /// A line of ordinary words.
    pub fn plain(words: impl Into<String>) -> Self {
        Self::new().with(Role::Plain, words)
    }

    /// A line that begins with a mark, such as a number or a bullet. What does not fit goes on below the
    /// first word after the mark.
    pub fn marked(mark: impl Into<String>, words: impl Into<String>) -> Self {
        let mark = format!("{} ", mark.into());
        let hang = textwrap::core::display_width(&mark);
        Self::new().with(Role::Strong, mark).with(Role::Plain, words).hang(hang)
    }

    /// The same line with more words at its end. No space is put between.
    #[must_use]
    pub fn with(mut self, role: Role, words: impl Into<String>) -> Self {
        self.pieces.push(Piece { words: words.into(), role });
        self
    }

    /// The same line moved in by this many columns.
    #[must_use]
    pub fn indent(mut self, columns: usize) -> Self {
        self.indent = columns;
        self
    }

    /// The same line with its continuation moved in by this many columns more.
    #[must_use]
    pub fn hang(mut self, columns: usize) -> Self {
        self.hang = columns;
        self
    }

    /// The words alone.
    pub fn words(&self) -> String {
        self.pieces.iter().map(|piece| piece.words.as_str()).collect()
    }
}

/// A part of a text.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A line.
    Line(Line),
    /// Where a reading fell between its limits: drawn on a terminal, told in words elsewhere.
    Gauge(Gauge),
    /// How far a group of places is worked through: drawn on a terminal, told in words elsewhere.
    Grid(Grid),
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
            if let Block::Line(line) = block {
                line.indent += columns;
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
        }
    }
}

impl From<Line> for Text {
    fn from(line: Line) -> Self {
        Self::new().line(line)
    }
}
