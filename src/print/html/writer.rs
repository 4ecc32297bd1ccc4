//! HTML on its way out: markup of ours as it is, every text escaped here and nowhere else.

use crate::source::clean;

/// What is written so far.
#[derive(Default)]
pub(super) struct Writer(String);

impl Writer {
    /// Markup of our own.
    pub(super) fn raw(&mut self, markup: &str) {
        self.0.push_str(markup);
    }

    /// Text, between tags or in a quoted attribute: it stays text there.
    pub(super) fn text(&mut self, text: &str) {
        for letter in clean(text).chars() {
            match letter {
                '&' => self.0.push_str("&amp;"),
                '<' => self.0.push_str("&lt;"),
                '>' => self.0.push_str("&gt;"),
                '"' => self.0.push_str("&quot;"),
                '\'' => self.0.push_str("&#39;"),
                _ => self.0.push(letter),
            }
        }
    }

    /// An element with a text in it.
    pub(super) fn element(&mut self, name: &str, text: &str) {
        self.raw(&format!("<{name}>"));
        self.text(text);
        self.raw(&format!("</{name}>"));
    }

    /// The same on a line of its own.
    pub(super) fn line(&mut self, name: &str, text: &str) {
        self.element(name, text);
        self.raw("\n");
    }

    /// A list; nothing where there is nothing to list.
    pub(super) fn list(&mut self, items: &[String]) {
        if items.is_empty() {
            return;
        }
        self.raw("<ul>\n");
        for item in items {
            self.line("li", item);
        }
        self.raw("</ul>\n");
    }

    pub(super) fn finish(self) -> String {
        self.0
    }
}
