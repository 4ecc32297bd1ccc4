//! The words of one block and where in the file each of them stands.

use super::step_numbers::{StepNumbers, speaks_of_steps, step_numbers};
use crate::source::{Span, Spanned};

/// Words without markup, and where each run of them comes from.
#[derive(Debug, Default)]
pub(super) struct Said {
    words: String,
    /// Where in the words a run begins, and where it stands in the file.
    runs: Vec<(usize, Span)>,
}

impl Said {
    /// Adds words that stand at `span`.
    pub(super) fn add(&mut self, words: &str, span: Span) {
        self.runs.push((self.words.len(), span));
        self.words.push_str(words);
    }

    /// Forgets what was said, and is ready for the next block.
    pub(super) fn clear(&mut self) {
        self.words.clear();
        self.runs.clear();
    }

    /// The numbers of steps in it, and where in the file they stand.
    pub(super) fn step_numbers(&self) -> Vec<StepNumbers> {
        if !speaks_of_steps(&self.words) {
            return Vec::new();
        }
        let place = |span: Span| {
            let last = self.place(span.end.saturating_sub(1));
            Span::new(self.place(span.start), last + 1)
        };
        let placed = |number: Spanned<String>| Spanned::new(number.value, place(number.span));
        let found = step_numbers(&self.words).into_iter().map(|found| StepNumbers {
            span: place(found.span),
            numbers: found.numbers.into_iter().map(placed).collect(),
        });
        found.collect()
    }

    /// Where in the file a byte of the words stands.
    fn place(&self, at: usize) -> usize {
        let run = self.runs.partition_point(|(start, _)| *start <= at).checked_sub(1);
        let run = run.and_then(|run| self.runs.get(run));
        run.map_or(0, |(start, span)| (span.start + at - start).min(span.end))
    }
}
