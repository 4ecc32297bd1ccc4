//! What can be wrong with a line of the journal, and how far the lines above it can be trusted.

use std::fmt;

/// What is wrong with a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Damage {
    /// It is not a line of a journal.
    Unreadable {
        /// What is wrong with it.
        why: String,
    },
    /// It was changed after it was written.
    Changed,
    /// It or the next line was changed after it was written; it cannot be told which.
    ChangedOrNext,
    /// Lines that stood here are gone.
    Missing {
        /// The last number that is gone; the first is the number of the line.
        last: u64,
    },
    /// It stands in the wrong place.
    OutOfOrder {
        /// The number that it carries.
        carries: u64,
    },
    /// It is a copy of a line above.
    Doubled {
        /// The line that it is a copy of.
        of: u64,
    },
}

impl Damage {
    /// The last line that is proved to be as it was written when line `line` is damaged like this; 0 for none.
    ///
    /// A line is proved by the digest in the next one, so where that one is not to be trusted, neither is this.
    pub fn proved_before(&self, line: u64) -> u64 {
        match self {
            Self::Changed | Self::ChangedOrNext => line.saturating_sub(1),
            _ => line.saturating_sub(2),
        }
    }

    /// A sentence about line `line`.
    pub fn told(&self, line: u64) -> impl fmt::Display {
        match self {
            Self::Unreadable { why } => format!("line {line} cannot be read: {why}"),
            Self::Changed => format!("line {line} was changed after it was written"),
            Self::ChangedOrNext => {
                let next = line.saturating_add(1);
                format!("line {line} or line {next} was changed after it was written")
            }
            Self::Missing { last } if *last == line => format!("event {line} is missing"),
            Self::Missing { last } => format!("events {line} to {last} are missing"),
            Self::OutOfOrder { carries } => {
                format!("lines were moved: event {carries} stands in line {line}")
            }
            Self::Doubled { of } => format!("line {line} is a copy of line {of}"),
        }
    }
}

/// The first line that is wrong.
#[derive(Debug)]
pub(crate) enum Flaw {
    /// The format of the journal is not known.
    Format(String),
    /// A line, from 1, and what is wrong with it.
    Line(u64, Damage),
}
