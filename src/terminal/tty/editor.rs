//! The line editor for typed answers.

use std::io;

use rustyline::error::ReadlineError;
use rustyline::history::MemHistory;
use rustyline::{ColorMode, Config, Editor};

use crate::terminal::Heard;

/// What stands before the answer.
const MARK: &str = "> ";

/// Edits one line. Nothing is remembered from one answer to the next: a reading must not be filled in with
/// the one before by a slip of a key.
pub(super) struct LineEditor(Editor<(), MemHistory>);

impl LineEditor {
    pub(super) fn new() -> io::Result<Self> {
        let config = Config::builder()
            .color_mode(ColorMode::Disabled)
            .bracketed_paste(true)
            .build();
        let history = MemHistory::with_config(&config);
        Editor::with_history(config, history).map(Self).map_err(failure)
    }

    /// Reads a line that begins as `initial`.
    pub(super) fn read(&mut self, initial: &str) -> io::Result<Heard> {
        match self.0.readline_with_initial(MARK, (initial, "")) {
            Ok(line) => Ok(Heard::Text(one_line(&line))),
            Err(ReadlineError::Interrupted) => Ok(Heard::Interrupt),
            Err(ReadlineError::Eof) => Ok(Heard::Gone),
            Err(error) => Err(failure(error)),
        }
    }
}

/// A pasted text may have line ends in it; the answer has none.
fn one_line(line: &str) -> String {
    line.trim_end_matches(['\r', '\n'])
        .replace("\r\n", " ")
        .replace(['\r', '\n'], " ")
}

fn failure(error: ReadlineError) -> io::Error {
    match error {
        ReadlineError::Io(error) => error,
        ReadlineError::Errno(error) => error.into(),
        other => io::Error::other(other),
    }
}
