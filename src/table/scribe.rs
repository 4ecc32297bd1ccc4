//! Notes what is wrong with a TOML text, at its place in the file around it.

use std::borrow::Cow;
use std::ops::Range;

use super::Lost;
use super::codes::TEXT_CONTROL;
use crate::source::{Diagnostic, Span, Spanned, clean};

/// Notes down what is wrong with a TOML text that lies `base` bytes inside a file.
#[derive(Debug)]
pub struct Scribe<'t> {
    /// The TOML text itself.
    pub text: &'t str,
    /// Where it begins in the file.
    pub base: usize,
    /// What was found so far.
    pub diagnostics: Vec<Diagnostic>,
    /// What could not be read because of slips.
    pub lost: Lost,
}

impl<'t> Scribe<'t> {
    /// Nothing found yet.
    pub fn new(text: &'t str, base: usize) -> Self {
        Self { text, base, diagnostics: Vec::new(), lost: Lost::default() }
    }

    /// Notes one more.
    pub fn note(&mut self, diagnostic: Diagnostic) {
        self.diagnostics.push(diagnostic);
    }

    /// From a range of the TOML text to the file.
    pub const fn span(&self, range: &Range<usize>) -> Span {
        Span::new(range.start, range.end).shifted(self.base)
    }

    /// What stands in the file at `span`, as typed.
    pub fn raw(&self, span: Span) -> &'t str {
        let start = span.start.saturating_sub(self.base);
        let end = span.end.saturating_sub(self.base);
        self.text.get(start..end).unwrap_or_default()
    }

    /// A text that is safe to show: TOML 1.1 can write any control character as an escape.
    pub fn cleaned(&mut self, text: &str, span: Span) -> Spanned<String> {
        let shown = clean(text);
        if let Cow::Owned(_) = shown
            && shown != text
        {
            let headline = "a text holds characters that could disturb the screen";
            let diagnostic = Diagnostic::warning(&TEXT_CONTROL, headline);
            self.note(
                diagnostic.at(span, "shown with them made harmless").help("type the text again by hand"),
            );
        }
        Spanned::new(shown.into_owned(), span)
    }
}
