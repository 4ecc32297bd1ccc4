//! Answers from a file: the same machine without a person at a terminal.

use jiff::{SignedDuration, ZonedDateTime};
use serde::Deserialize;
use toml::Spanned as TomlSpanned;

use crate::answers::codes::problem;
use crate::answers::line::Line;
use crate::answers::times::{clock, pace};
use crate::source::{Diagnostic, Span};

/// A file of answers.
#[derive(Clone, Debug)]
pub struct Script {
    /// When it begins.
    pub clock: ZonedDateTime,
    /// The time from one answer to the next, where an answer does not say otherwise.
    pub pace: SignedDuration,
    /// The answers, in order.
    pub lines: Vec<(Line, Span)>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    format: TomlSpanned<u32>,
    clock: TomlSpanned<String>,
    pace: Option<TomlSpanned<String>>,
    answers: Vec<TomlSpanned<Line>>,
}

impl Script {
    /// Reads a file of answers.
    pub fn read(text: &str) -> Result<Self, Box<Diagnostic>> {
        let written: Written = toml::from_str(text).map_err(|error| {
            problem(error.span().unwrap_or_default(), error.message(), "the file of answers cannot be read")
        })?;
        if *written.format.get_ref() != 1 {
            return Err(problem(written.format.span(), "write 1", "this format of answers is not known"));
        }
        Ok(Self {
            clock: clock(&written.clock)?,
            pace: written.pace.as_ref().map_or(Ok(SignedDuration::from_secs(20)), pace)?,
            lines: lines(written.answers)?,
        })
    }
}

fn line(line: TomlSpanned<Line>) -> (Line, Span) {
    let span = Span::new(line.span().start, line.span().end);
    (line.into_inner(), span)
}

/// The answers, each with its place. A time in them that cannot be used is found before anything is answered.
fn lines(answers: Vec<TomlSpanned<Line>>) -> Result<Vec<(Line, Span)>, Box<Diagnostic>> {
    let usable = |line: TomlSpanned<Line>| match line.get_ref().pause() {
        Some(Err(why)) => Err(problem(line.span(), &why, "this time cannot be used")),
        _ => Ok(self::line(line)),
    };
    answers.into_iter().map(usable).collect()
}
