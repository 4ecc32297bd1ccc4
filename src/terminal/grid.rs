//! A group of places worked through in stages, as a grid: places across, stages down.
//!
//! ```text
//!          1    2    3    4
//! by hand  done done done done
//! half     done now  -    dev 1
//! ```
//!
//! Each cell has its own word, so that nothing depends on colour. Where the places do not fit beside each other, the
//! grid goes on below; where not even three fit, places stand down and stages across. In linear output the same is told
//! as sentences.

use textwrap::core::display_width;

use super::{Line, Role};

/// What stands in a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cell {
    /// Done and good.
    Done,
    /// What is to be done now.
    Now,
    /// Still to do.
    ToDo,
    /// What was reached is not good, and nothing is decided yet.
    Fail,
    /// Left out, or gone on with, as the deviation of this number.
    Deviation(usize),
}

impl Cell {
    /// What its mark means, where the word does not say it.
    const fn meaning(self) -> Option<&'static str> {
        match self {
            Self::Done => None,
            Self::Now => Some("now: this one"),
            Self::ToDo => Some("-: to do"),
            Self::Deviation(_) => Some("dev: left out or off its target, by the deviation of that number"),
            Self::Fail => Some("fail: not what was wanted"),
        }
    }

    /// In the grid.
    fn mark(self) -> String {
        match self {
            Self::Done => "done".to_owned(),
            Self::Now => "now".to_owned(),
            Self::ToDo => "-".to_owned(),
            Self::Fail => "fail".to_owned(),
            Self::Deviation(number) => format!("dev {number}"),
        }
    }

    /// In a sentence, after the places that it holds for.
    fn words(self) -> String {
        match self {
            Self::Done => "done".to_owned(),
            Self::Now => "now".to_owned(),
            Self::ToDo => "to do".to_owned(),
            Self::Fail => "failed".to_owned(),
            Self::Deviation(number) => format!("deviation {number}"),
        }
    }

    const fn role(self) -> Role {
        match self {
            Self::Done => Role::Good,
            Self::Now => Role::Strong,
            Self::ToDo => Role::Faint,
            Self::Fail | Self::Deviation(_) => Role::Bad,
        }
    }
}

/// One stage: what it is called, and a cell for each place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stage {
    /// What it is called.
    pub what: String,
    /// The cells, in the order of the places.
    pub cells: Vec<Cell>,
}

/// A group of places and its stages.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grid {
    /// The places.
    pub places: Vec<String>,
    /// The stages.
    pub stages: Vec<Stage>,
}

/// Columns between two cells.
const GAP: usize = 1;
/// With fewer places than this beside each other, the stages stand across.
const FEWEST: usize = 3;

impl Grid {
    /// The grid, drawn to a width.
    pub fn drawn(&self, width: usize) -> Vec<Line> {
        let across = Table {
            heads: self.places.clone(),
            rows: self.stages.iter().map(|stage| (stage.what.clone(), stage.cells.clone())).collect(),
        };
        let down = Table {
            heads: self.stages.iter().map(|stage| stage.what.clone()).collect(),
            rows: self
                .places
                .iter()
                .enumerate()
                .map(|(at, place)| (place.clone(), self.column(at)))
                .collect(),
        };
        let fits = across.beside(width) >= FEWEST.min(self.places.len());
        let mut lines = match (fits, down.beside(width) >= self.stages.len()) {
            (true, _) => across.drawn(width),
            (false, true) => down.drawn(width),
            (false, false) => return self.told(),
        };
        lines.extend(self.legend());
        lines
    }

    /// A sentence a stage: `Stage half: 1 to 3 done; 4 now; 5 to 8 to do.`
    pub fn told(&self) -> Vec<Line> {
        self.stages.iter().map(|stage| self.sentence(stage)).collect()
    }

    /// The sentences alone, a line each.
    pub fn words(&self) -> String {
        self.told().iter().map(Line::words).collect::<Vec<_>>().join("\n")
    }

    fn column(&self, place: usize) -> Vec<Cell> {
        self.stages.iter().filter_map(|stage| stage.cells.get(place).copied()).collect()
    }

    fn sentence(&self, stage: &Stage) -> Line {
        let mut kinds: Vec<Cell> = Vec::new();
        for cell in &stage.cells {
            if !kinds.contains(cell) {
                kinds.push(*cell);
            }
        }
        let is_one = kinds.len() == 1 && stage.cells.len() > 1;
        let places = |kind| if is_one { "all".to_owned() } else { self.listed(stage, kind) };
        let parts: Vec<String> =
            kinds.into_iter().map(|kind| format!("{} {}", places(kind), kind.words())).collect();
        Line::plain(format!("Stage {}: {}.", stage.what, parts.join("; "))).hang(2)
    }

    /// The places where a cell stands; three and more numbers beside each other as `1 to 3`. Between two names nobody
    /// knows what lies.
    fn listed(&self, stage: &Stage, kind: Cell) -> String {
        let are_numbers = self.places.iter().all(|place| place.parse::<usize>().is_ok());
        let mut runs: Vec<(usize, usize)> = Vec::new();
        for (at, _) in stage.cells.iter().enumerate().filter(|(_, cell)| **cell == kind) {
            match runs.last_mut() {
                Some((_, last)) if *last + 1 == at && are_numbers => *last = at,
                _ => runs.push((at, at)),
            }
        }
        let place = |at: usize| self.places.get(at).map(String::as_str).unwrap_or_default();
        let words = runs.into_iter().map(|(first, last)| match last - first {
            0 => place(first).to_owned(),
            1 => format!("{}, {}", place(first), place(last)),
            _ => format!("{} to {}", place(first), place(last)),
        });
        words.collect::<Vec<_>>().join(", ")
    }

    /// What the marks mean, as far as they stand here.
    fn legend(&self) -> Option<Line> {
        let cells = || self.stages.iter().flat_map(|stage| &stage.cells);
        let kinds = [Cell::Now, Cell::ToDo, Cell::Deviation(0), Cell::Fail].into_iter();
        let stands = |words: &&str| cells().any(|cell| cell.meaning() == Some(words));
        let words: Vec<&str> = kinds.filter_map(Cell::meaning).filter(stands).collect();
        (!words.is_empty()).then(|| Line::new().with(Role::Faint, words.join("; ")).hang(2))
    }
}

/// Rows of cells under heads.
struct Table {
    heads: Vec<String>,
    rows: Vec<(String, Vec<Cell>)>,
}

impl Table {
    fn name_width(&self) -> usize {
        self.rows.iter().map(|(name, _)| display_width(name)).max().unwrap_or_default()
    }

    fn cell_width(&self) -> usize {
        let marks = self.rows.iter().flat_map(|(_, cells)| cells).map(|cell| display_width(&cell.mark()));
        self.heads.iter().map(|head| display_width(head)).chain(marks).max().unwrap_or(1).max(1)
    }

    /// How many columns of cells stand beside each other at this width.
    fn beside(&self, width: usize) -> usize {
        width.saturating_sub(self.name_width() + GAP) / (self.cell_width() + GAP)
    }

    fn drawn(&self, width: usize) -> Vec<Line> {
        let at_once = self.beside(width).max(1);
        let mut lines = Vec::new();
        for first in (0..self.heads.len()).step_by(at_once) {
            let band = first..(first + at_once).min(self.heads.len());
            lines.extend(self.band(band));
        }
        lines
    }

    fn band(&self, band: std::ops::Range<usize>) -> Vec<Line> {
        let heads = self.heads.get(band.clone()).unwrap_or_default().iter();
        let head = self.row("", heads.map(|head| (Role::Strong, head.clone())));
        let rows = self.rows.iter().map(|(name, cells)| {
            let cells = cells.get(band.clone()).unwrap_or_default().iter();
            self.row(name, cells.map(|cell| (cell.role(), cell.mark())))
        });
        std::iter::once(head).chain(rows).collect()
    }

    /// No-break spaces, so that a row is not taken for words to be wrapped.
    fn row(&self, name: &str, cells: impl Iterator<Item = (Role, String)>) -> Line {
        let mut line = Line::new().with(Role::Plain, padded(name, self.name_width()));
        let mut filling = GAP;
        for (role, words) in cells {
            line = line.with(Role::Plain, "\u{a0}".repeat(filling));
            filling = self.cell_width().saturating_sub(display_width(&words)) + GAP;
            line = line.with(role, words.replace(' ', "\u{a0}"));
        }
        line
    }
}

fn padded(words: &str, width: usize) -> String {
    let filling = width.saturating_sub(display_width(words));
    format!("{}{}", words.replace(' ', "\u{a0}"), "\u{a0}".repeat(filling))
}
