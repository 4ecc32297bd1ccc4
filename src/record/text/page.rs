//! Lines on their way to the page: wrapped, indented, made harmless.

use textwrap::{Options, WrapAlgorithm, core::display_width};

use crate::source::clean;

pub(super) struct Page {
    width: usize,
    text: String,
}

impl Page {
    pub(super) fn new(width: usize) -> Self {
        Self {
            width,
            text: String::new(),
        }
    }

    pub(super) fn width(&self) -> usize {
        self.width
    }

    /// A heading with a line under it.
    pub(super) fn heading(&mut self, words: &str) {
        self.blank();
        self.put(0, words);
        let width = display_width(words).min(self.width);
        self.text.push_str(&"-".repeat(width));
        self.text.push('\n');
    }

    /// An empty line, but not at the top and never two.
    pub(super) fn blank(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    /// Words at an indent; lines that follow hang two columns further in.
    pub(super) fn put(&mut self, indent: usize, words: &str) {
        let (first, then) = (" ".repeat(indent), " ".repeat(indent + 2));
        for paragraph in clean(words).lines() {
            let options = Options::new(self.width)
                .initial_indent(&first)
                .subsequent_indent(&then)
                .wrap_algorithm(WrapAlgorithm::FirstFit);
            for line in textwrap::wrap(paragraph, options) {
                self.text.push_str(line.trim_end());
                self.text.push('\n');
            }
        }
    }

    /// A name and what it is.
    pub(super) fn field(&mut self, indent: usize, name: &str, words: &str) {
        self.put(indent, &format!("{name}: {words}"));
    }

    /// The same, where there is something to say.
    pub(super) fn maybe(&mut self, indent: usize, name: &str, words: Option<&str>) {
        if let Some(words) = words {
            self.field(indent, name, words);
        }
    }

    /// A line that is the right width already.
    pub(super) fn drawn(&mut self, indent: usize, line: &str) {
        self.text.push_str(&" ".repeat(indent));
        self.text.push_str(&clean(line));
        self.text.push('\n');
    }

    /// A text line by line as it stands, each line broken only where it is too wide.
    pub(super) fn verbatim(&mut self, text: &str) {
        for line in clean(text).lines() {
            self.broken("| ", line);
        }
    }

    fn broken(&mut self, mark: &str, line: &str) {
        let room = self.width - mark.len();
        let mut rest = line;
        loop {
            let end = fitting(rest, room);
            let (now, later) = rest.split_at(end);
            self.text.push_str(format!("{mark}{now}").trim_end());
            self.text.push('\n');
            rest = later;
            if rest.is_empty() {
                return;
            }
        }
    }

    pub(super) fn finish(self) -> String {
        self.text
    }
}

/// How many bytes of a line fit into so many columns; at least one character.
fn fitting(line: &str, room: usize) -> usize {
    let mut used = 0;
    for (at, letter) in line.char_indices() {
        used += display_width(letter.encode_utf8(&mut [0; 4]));
        if used > room && at > 0 {
            return at;
        }
    }
    line.len()
}
