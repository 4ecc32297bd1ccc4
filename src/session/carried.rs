//! A journal and its pinned texts as a record carries them: read and checked without a disk.

use std::fmt;
use std::sync::Arc;

use crate::journal::{Contents, Damage, Flaw, Pinned, check};
use crate::run::{Book, Event, Stamp};
use crate::session::books::Books;
use crate::session::live::events;
use crate::session::not_opened::NotOpened;

/// A run that was read from the lines of its journal.
#[derive(Debug)]
pub struct Carried {
    /// What it goes by.
    pub book: Arc<Book>,
    /// Its events, in order.
    pub events: Vec<(Event, Stamp)>,
}

/// Why a carried journal cannot be read.
#[derive(Debug)]
pub enum NotCarried {
    /// A line, from 1, is not as it was written.
    Damaged {
        /// The line.
        line: u64,
        /// What is wrong with it.
        damage: Damage,
    },
    /// Its format is not known.
    Format {
        /// The format that it names.
        found: String,
    },
    /// The lines are sound, but they and the pinned texts do not make a run.
    NotOpened(NotOpened),
}

/// Checks the chain of these lines (without their newlines) and reads the run that they and the pinned texts make.
pub fn carried(lines: &[String], pinned: &Pinned, books: &mut Books) -> Result<Carried, NotCarried> {
    let contents = contents(lines)?;
    let book = |start: &_| books.of(start, pinned);
    let (book, events) = events(&contents, book).map_err(NotCarried::NotOpened)?;
    Ok(Carried { book, events })
}

fn contents(lines: &[String]) -> Result<Contents, NotCarried> {
    let bytes: String = lines.iter().flat_map(|line| [line.as_str(), "\n"]).collect();
    let contents = check(bytes.into_bytes()).map_err(|flaw| match flaw {
        Flaw::Format(found) => NotCarried::Format { found },
        Flaw::Line(line, damage) => NotCarried::Damaged { line, damage },
    })?;
    if contents.torn.is_some() || contents.lines.len() != lines.len() {
        let why = "a text that is not one line".to_owned();
        let line = contents.head.seq;
        return Err(NotCarried::Damaged { line, damage: Damage::Unreadable { why } });
    }
    Ok(contents)
}

impl std::error::Error for NotCarried {}

impl fmt::Display for NotCarried {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Damaged { line, damage } => write!(out, "the journal: {}", damage.told(*line)),
            Self::Format { found } => {
                write!(out, "the journal has format {found}, which this version cannot read")
            }
            Self::NotOpened(why) => write!(out, "{why}"),
        }
    }
}
