//! What a journal says: its lines, what was torn off, and where it ends.

use std::ops::Range;
use std::path::PathBuf;

use jiff::{SignedDuration, ZonedDateTime};
use serde::Deserialize;
use serde::de::DeserializeOwned;

use super::strict::plain;
use super::{Digest, JournalError};

/// All that a journal says, checked.
#[derive(Clone, Debug)]
pub struct Contents {
    /// The whole lines as they stand, each with its newline.
    pub text: String,
    /// The lines in order; the line with number n is at n - 1.
    pub lines: Vec<Line>,
    /// What was found after the last whole line, if anything.
    pub torn: Option<Torn>,
    /// Where the journal ends.
    pub head: Head,
}

/// One line.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its number, from 1.
    pub seq: u64,
    /// When it was written; the zone is the offset.
    pub time: ZonedDateTime,
    /// Where it stands in the text, without its newline.
    pub(super) span: Range<usize>,
    /// By how much the clock had gone back since the line before, if it had.
    pub clock_back: Option<SignedDuration>,
}

/// A typed event and where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Recorded<E> {
    /// Its number, from 1.
    pub seq: u64,
    /// When it was written; the zone is the offset.
    pub time: ZonedDateTime,
    /// The event.
    pub event: E,
}

/// The end of a line that was being written when the process or the power ended. It was never acknowledged.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Torn {
    /// The number of the line that it would have become.
    pub line: u64,
    /// What is left of it.
    pub bytes: Vec<u8>,
    /// Where it is kept now; `None` while it still stands in the journal.
    pub kept_in: Option<PathBuf>,
}

/// Where a journal ends. The digest covers the last line and, through the chain, all lines before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Head {
    /// The number of the last line; 0 when there is none.
    pub seq: u64,
    /// The digest of the last line, newline included; of nothing when there is none.
    pub digest: Digest,
    /// The length of all whole lines in bytes.
    pub length: u64,
}

impl Head {
    /// The head of a journal without lines.
    pub(super) fn of_nothing() -> Self {
        Self { seq: 0, digest: Digest::of(b""), length: 0 }
    }

    /// The head after this line, newline included.
    pub(super) fn after(&self, line: &[u8]) -> Self {
        Self { seq: self.seq + 1, digest: Digest::of(line), length: self.length + line.len() as u64 }
    }
}

/// What a line says happened, whatever else stands in it.
#[derive(Deserialize)]
struct EventOf<E> {
    event: E,
}

impl Contents {
    /// The text of a line, without its newline.
    pub fn line(&self, line: &Line) -> &str {
        self.text.get(line.span.clone()).unwrap_or_default()
    }

    /// The event of a line as the type that the caller knows.
    pub fn typed<E: DeserializeOwned>(&self, line: &Line) -> Result<Recorded<E>, JournalError> {
        let EventOf { event } = serde_json::from_str(self.line(line))
            .map_err(|error| JournalError::UnknownEvent { line: line.seq, why: plain(&error) })?;
        Ok(Recorded { seq: line.seq, time: line.time.clone(), event })
    }

    /// All events as the type that the caller knows.
    pub fn events<E: DeserializeOwned>(&self) -> Result<Vec<Recorded<E>>, JournalError> {
        self.lines.iter().map(|line| self.typed(line)).collect()
    }
}
