//! The lines of a job's record: headings, names with what they are.

use textwrap::core::display_width;

use crate::print::Lines;

pub(in crate::job::record) struct Page(Lines);

impl Page {
    pub(crate) fn new(width: usize) -> Self {
        Self(Lines::new(width))
    }

    /// A heading with a line under it.
    pub(crate) fn heading(&mut self, words: &str) {
        self.blank();
        self.put(0, words);
        let width = display_width(words).min(self.0.width);
        self.0.text.push_str(&"-".repeat(width));
        self.0.text.push('\n');
    }

    pub(crate) fn blank(&mut self) {
        self.0.blank();
    }

    pub(crate) fn put(&mut self, indent: usize, words: &str) {
        self.0.put(indent, words);
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
        self.0.text
    }
}
