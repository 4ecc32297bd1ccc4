//! The words of one block and where in the file each of them stands.

use super::step_numbers::{StepNumbers, step_numbers};
use crate::source::{Span, Spanned};

/// Words without markup; of each byte, where it comes from.
#[derive(Debug, Default)]
pub(super) struct Said {
    words: String,
    places: Vec<usize>,
}

impl Said {
    /// Adds words that stand at `span`.
    pub(super) fn add(&mut self, words: &str, span: Span) {
        self.words.push_str(words);
        self.places.extend((0..words.len()).map(|byte| (span.start + byte).min(span.end)));
    }

    /// The numbers of steps in it, and where in the file they stand.
    pub(super) fn step_numbers(&self) -> Vec<StepNumbers> {
        let place = |span: Span| {
            let last = self.places.get(span.end.saturating_sub(1)).copied().unwrap_or_default();
            Span::new(self.places.get(span.start).copied().unwrap_or_default(), last + 1)
        };
        let placed = |number: Spanned<String>| Spanned::new(number.value, place(number.span));
        let found = step_numbers(&self.words).into_iter().map(|found| StepNumbers {
            span: place(found.span),
            numbers: found.numbers.into_iter().map(placed).collect(),
        });
        found.collect()
    }
}
