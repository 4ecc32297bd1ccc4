//! Lines on their way to the page: wrapped, indented, made harmless.

use textwrap::{Options, WordSeparator, WrapAlgorithm, core::display_width};

use crate::source::{clean, find_words};

pub(in crate::job::record) struct Page {
    width: usize,
    text: String,
}

impl Page {
    pub(crate) fn new(width: usize) -> Self {
        Self { width, text: String::new() }
    }

    /// A heading with a line under it.
    pub(crate) fn heading(&mut self, words: &str) {
        self.blank();
        self.put(0, words);
        let width = display_width(words).min(self.width);
        self.text.push_str(&"-".repeat(width));
        self.text.push('\n');
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

    /// A name and what it is.
    pub(crate) fn field(&mut self, indent: usize, name: &str, words: &str) {
        self.put(indent, &format!("{name}: {words}"));
    }

    /// The same, where there is something to say.
    pub(crate) fn maybe(&mut self, indent: usize, name: &str, words: Option<&str>) {
        if let Some(words) = words {
            self.field(indent, name, words);
        }
    }

    pub(crate) fn finish(self) -> String {
        self.text
    }
}
