//! Lines on their way to a page: wrapped, indented, made harmless.

use textwrap::{Options, WordSeparator, WrapAlgorithm};

use crate::source::{clean, find_words};

/// Lines no wider than a width but what cannot be broken.
pub(crate) struct Lines {
    pub(crate) width: usize,
    pub(crate) text: String,
}

impl Lines {
    pub(crate) fn new(width: usize) -> Self {
        Self { width, text: String::new() }
    }

    /// An empty line, but not at the top and never two.
    pub(crate) fn blank(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    /// Words at an indent; lines that follow hang two columns further in.
    pub(crate) fn put(&mut self, indent: usize, words: &str) {
        let (first, then) = (" ".repeat(indent), " ".repeat(indent + 2));
        for paragraph in clean(words).lines() {
            let options = Options::new(self.width)
                .initial_indent(&first)
                .subsequent_indent(&then)
                .word_separator(WordSeparator::Custom(find_words))
                .wrap_algorithm(WrapAlgorithm::FirstFit);
            for line in textwrap::wrap(paragraph, options) {
                self.text.push_str(line.trim_end());
                self.text.push('\n');
            }
        }
    }
}
