//! What stands on a page.

use super::{Figure, Picture};

/// A page, or several.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// What it is: `RECORD`.
    pub kind: String,
    /// The title.
    pub title: String,
    /// What has to be known before anything else.
    pub warnings: Vec<String>,
    /// Its sections, in order.
    pub sections: Vec<Section>,
}

/// A part of a page under a heading.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// On which part of it it stands.
    pub part: Part,
    /// The heading.
    pub heading: String,
    /// What stands below it.
    pub blocks: Vec<Block>,
}

/// Where a section stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// On the first page.
    First,
    /// After it.
    Rest,
}

/// Something on a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A heading within the section.
    Heading(String),
    /// A sentence or a few.
    Words(String),
    /// Sentences one below the other.
    Items(Vec<String>),
    /// Names, each with what it is.
    Facts(Vec<(String, String)>),
    /// A table.
    Table(Table),
    /// Places against stages.
    Grid(Grid),
    /// What is long, and in its place in plain text what is short and says where the rest stands.
    Long {
        /// All of it.
        full: Box<Block>,
        /// Short.
        short: Vec<Block>,
    },
    /// A hazard: its signal word, and what it says.
    Hazard(String, String),
    /// Things to do and to write down, each with its box or its blanks.
    Ticks(Vec<Tick>),
    /// What is not parted on paper.
    Kept(Vec<Block>),
    /// A figure with what it shows.
    Figure(String, Figure),
    /// A picture.
    Picture(Picture),
}

/// Rows of the same sort.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What it lists.
    pub caption: String,
    /// The head of each column: of [`Row::at`], [`Row::what`] and each of [`Row::cells`].
    pub columns: Vec<String>,
    /// The rows.
    pub rows: Vec<Row>,
    /// How it is set where there are no columns.
    pub style: Style,
}

/// How a table is set in text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// Each row begins a line.
    Rows,
    /// The same, with a word before each of [`Row::cells`] where it would not be clear without the head of its column.
    Named(&'static [&'static str]),
    /// One row after the other, as sentences.
    Run,
    /// As many beside each other as there is room for, without [`Row::cells`]: these are for where there are columns.
    Flow,
}

/// A row of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// Where or which: a step, a number.
    pub at: String,
    /// What.
    pub what: String,
    /// What is said of it, a column each.
    pub cells: Vec<String>,
    /// A drawing of it.
    pub figure: Option<Figure>,
    /// What else there is to say of it.
    pub notes: Vec<String>,
}

impl Table {
    /// The columns in which anything stands, by place.
    pub(super) fn used(&self) -> Vec<usize> {
        let is_used = |column: &usize| self.rows.iter().any(|row| !row.cell(*column).is_empty());
        (0..self.columns.len()).filter(is_used).collect()
    }

    /// Whether a row has notes or a drawing, which stand in a column of their own.
    pub(super) fn has_more(&self) -> bool {
        self.rows.iter().any(|row| !row.notes.is_empty() || row.figure.is_some())
    }
}

impl Row {
    /// What stands in a column.
    pub(super) fn cell(&self, column: usize) -> &str {
        match column {
            0 => &self.at,
            1 => &self.what,
            more => self.cells.get(more - 2).map_or("", String::as_str),
        }
    }
}

/// Something to do, or to write down.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tick {
    /// Whether a box stands before it, and whether it is ticked.
    pub mark: Mark,
    /// What it says.
    pub words: String,
    /// What it is one of: a box each.
    pub choices: Vec<String>,
    /// What is written behind it by hand, a blank each.
    pub blanks: Vec<String>,
    /// It belongs to the one above it.
    pub within: bool,
}

/// The box before something to do.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Mark {
    /// There is none.
    #[default]
    None,
    /// It is empty.
    Open,
    /// It is ticked.
    Done,
}

/// Places against stages.
#[derive(Clone, Debug, PartialEq)]
pub struct Grid {
    /// What it shows.
    pub caption: String,
    /// What the rows are.
    pub corner: String,
    /// The head of each column.
    pub columns: Vec<String>,
    /// Each row: its name, and a cell for each column.
    pub rows: Vec<(String, Vec<String>)>,
}

impl Section {
    /// A section of the first page.
    pub fn first(heading: impl Into<String>, blocks: Vec<Block>) -> Self {
        Self { part: Part::First, heading: heading.into(), blocks }
    }

    /// A section after it.
    pub fn rest(heading: impl Into<String>, blocks: Vec<Block>) -> Self {
        Self { part: Part::Rest, heading: heading.into(), blocks }
    }
}

impl Page {
    /// The pictures on it, to be filled in.
    pub fn pictures_mut(&mut self) -> Vec<&mut Picture> {
        self.sections.iter_mut().flat_map(|section| &mut section.blocks).flat_map(pictures_in).collect()
    }

    /// The same with the first page alone.
    #[must_use]
    pub fn head(mut self) -> Self {
        self.sections.retain(|section| section.part == Part::First);
        self
    }
}

impl Block {
    /// Whether a picture itself stands in it.
    pub(super) fn has_picture(&self) -> bool {
        match self {
            Self::Picture(picture) => picture.data.is_some(),
            Self::Kept(blocks) => blocks.iter().any(Self::has_picture),
            _ => false,
        }
    }
}

fn pictures_in(block: &mut Block) -> Vec<&mut Picture> {
    match block {
        Block::Picture(picture) => vec![picture],
        Block::Kept(blocks) => blocks.iter_mut().flat_map(pictures_in).collect(),
        _ => Vec::new(),
    }
}
