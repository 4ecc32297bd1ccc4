//! A source text and its name; lines and columns as a person counts them.

use std::sync::{Arc, OnceLock};

use super::Span;

/// A text and the name it is shown under, for example a path as the person typed it. A clone is the same text: nothing is
/// copied.
#[derive(Clone, Debug)]
pub struct SourceText(Arc<Inner>);

#[derive(Debug)]
struct Inner {
    name: String,
    text: String,
    /// Where each line begins; worked out when a place is first asked for.
    lines: OnceLock<Vec<usize>>,
}

/// A place as a person counts it: from one, columns in characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Position {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

impl PartialEq for SourceText {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0) || (self.name() == other.name() && self.text() == other.text())
    }
}

impl Eq for SourceText {}

impl SourceText {
    /// A text under a name.
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> Self {
        Self(Arc::new(Inner { name: name.into(), text: text.into(), lines: OnceLock::new() }))
    }

    /// The name it is shown under.
    pub fn name(&self) -> &str {
        &self.0.name
    }

    /// The whole text.
    pub fn text(&self) -> &str {
        &self.0.text
    }

    /// The text at `span`; empty where the span does not fit the text.
    pub fn slice(&self, span: Span) -> &str {
        self.text().get(span.start..span.end).unwrap_or_default()
    }

    /// Line and column of a byte offset; an offset past the end is the end.
    pub fn position(&self, offset: usize) -> Position {
        let mut offset = offset.min(self.text().len());
        while !self.text().is_char_boundary(offset) {
            offset -= 1;
        }
        let lines = self.lines();
        let line = lines.partition_point(|&start| start <= offset);
        let start = line.checked_sub(1).and_then(|line| lines.get(line)).copied().unwrap_or_default();
        Position { line, column: self.slice(Span::new(start, offset)).chars().count() + 1 }
    }

    /// The line of a byte offset with so many lines before and after it.
    pub(super) fn lines_around(&self, offset: usize, more: usize) -> Span {
        let lines = self.lines();
        let next = lines.partition_point(|&start| start <= offset);
        let start = lines.get(next.saturating_sub(1 + more)).copied().unwrap_or_default();
        let end = lines.get(next + more).copied().unwrap_or(self.text().len());
        Span::new(start, end.max(offset + 1))
    }

    fn lines(&self) -> &[usize] {
        self.0.lines.get_or_init(|| {
            let newlines = self.text().match_indices('\n').map(|(newline, _)| newline + 1);
            std::iter::once(0).chain(newlines).collect()
        })
    }
}
