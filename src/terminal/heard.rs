//! What a person can answer, and the keys that are offered.

use std::time::Duration;

/// What came back from the person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Heard {
    /// One key, as it stands in the [`KeyHint`] that offered it; from [`Ui::wait`](super::Ui::wait), any key.
    Key(char),
    /// One line as typed, without its end of line. It is raw: clean it before it is shown.
    Text(String),
    /// The place of the chosen item, counted from 0.
    Chosen(usize),
    /// The wait is over.
    Elapsed,
    /// The time that was taken.
    Timed(Duration),
    /// Ctrl-C: the person wants out of what is being asked.
    Interrupt,
    /// Nobody is there any more: end of input, hang-up, closed pipe.
    Gone,
}

/// A key that is offered at a prompt, with the words that say what it does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyHint {
    /// The key: a printable character, `'\n'` for Enter, `' '` for the space bar, `'\u{1b}'` for Escape.
    pub key: char,
    /// What it does, in one to three words.
    pub does: String,
    /// Whether it means the same at every question, and is shown there without its words.
    pub is_common: bool,
}

impl KeyHint {
    /// A key and what it does.
    pub fn new(key: char, does: impl Into<String>) -> Self {
        Self { key, does: does.into(), is_common: false }
    }

    /// A key that means the same at every question.
    pub fn common(key: char, does: impl Into<String>) -> Self {
        Self { is_common: true, ..Self::new(key, does) }
    }

    /// The name of the key as a person would say it.
    pub fn name(&self) -> String {
        key_name(self.key)
    }
}

/// The name of a key as a person would say it: `y`, `Enter`, `Space`.
pub(super) fn key_name(key: char) -> String {
    match key {
        '\n' => "Enter".into(),
        ' ' => "Space".into(),
        '\t' => "Tab".into(),
        '\u{1b}' => "Escape".into(),
        '\u{8}' => "Backspace".into(),
        '\u{7f}' => "Delete".into(),
        other => other.into(),
    }
}

/// The offered key that was meant. Capital lock is forgiven where it leaves no doubt.
pub(super) fn meant(keys: &[KeyHint], typed: char) -> Option<char> {
    let exact = keys.iter().find(|hint| hint.key == typed);
    let folded = || keys.iter().find(|hint| hint.key.to_lowercase().eq(typed.to_lowercase()));
    exact.or_else(folded).map(|hint| hint.key)
}
