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

/// How a line is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Entry {
    /// The question itself: Escape does nothing.
    Main,
    /// The question itself, where something is released or cannot be undone: what is typed before it was there, or comes
    /// from a key that is held down, does not count.
    Weighed,
    /// On the side: Escape goes back, as Ctrl-C does ([`Heard::Interrupt`]).
    Aside,
}

/// What a key is among those that are offered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KeyKind {
    /// One of this question.
    Own,
    /// One of this question that counts only after a pause without keys: what it settles can hurt somebody.
    Weighed,
    /// It means the same at every question, and is shown there without its words.
    Common,
    /// It goes back, and so does Escape.
    Back,
}

/// A key that is offered at a prompt, with the words that say what it does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyHint {
    /// The key: a printable character, `'\n'` for Enter, `' '` for the space bar.
    pub key: char,
    /// What it does, in one to three words.
    pub does: String,
    /// What it is among the others.
    pub kind: KeyKind,
}

impl KeyHint {
    /// A key and what it does.
    pub fn new(key: char, does: impl Into<String>) -> Self {
        Self { key, does: does.into(), kind: KeyKind::Own }
    }

    /// The same key as one of another kind.
    #[must_use]
    pub fn being(self, kind: KeyKind) -> Self {
        Self { kind, ..self }
    }

    /// A key that means the same at every question.
    pub fn common(key: char, does: impl Into<String>) -> Self {
        Self::new(key, does).being(KeyKind::Common)
    }

    /// Enter, where it goes back.
    pub fn back(does: impl Into<String>) -> Self {
        Self::new('\n', does).being(KeyKind::Back)
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
        ESCAPE => "Escape".into(),
        '\u{8}' => "Backspace".into(),
        '\u{7f}' => "Delete".into(),
        other => other.into(),
    }
}

/// Escape.
pub(super) const ESCAPE: char = '\u{1b}';

/// The offered key that was meant. Capital lock is forgiven where it leaves no doubt; Escape goes back where that is offered.
pub(super) fn meant(keys: &[KeyHint], typed: char) -> Option<&KeyHint> {
    let exact = keys.iter().find(|hint| hint.key == typed);
    let folded = || keys.iter().find(|hint| hint.key.to_lowercase().eq(typed.to_lowercase()));
    let back = || keys.iter().find(|hint| typed == ESCAPE && hint.kind == KeyKind::Back);
    exact.or_else(folded).or_else(back)
}
