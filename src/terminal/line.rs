//! A line of words, each piece with what it is.

/// What a piece of text is. How it looks is decided elsewhere; what it says stands in its words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Role {
    /// Ordinary words.
    Plain,
    /// What matters most in the line.
    Strong,
    /// What can be passed over.
    Faint,
    /// A reading that passed, something that is well.
    Good,
    /// A reading that failed, something that is not well.
    Bad,
    /// The signal word DANGER.
    Danger,
    /// The signal word WARNING.
    Warning,
    /// The signal word CAUTION.
    Caution,
    /// The signal word NOTICE.
    Notice,
    /// A protection in force.
    Protection,
}

/// Words with one role.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Piece {
    /// The words. Control characters in them are made harmless when they are shown.
    pub words: String,
    /// What they are.
    pub role: Role,
}

/// One line, wrapped where it is too long.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Line {
    pub(super) pieces: Vec<Piece>,
    pub(super) indent: usize,
    pub(super) hang: usize,
}

impl Line {
    /// An empty line.
    pub fn new() -> Self {
        Self::default()
    }

    /// A line of ordinary words.
    pub fn plain(words: impl Into<String>) -> Self {
        Self::new().with(Role::Plain, words)
    }

    /// A line that begins with a mark, such as a number or a bullet. What does not fit goes on below the
    /// first word after the mark.
    pub fn marked(mark: impl Into<String>, words: impl Into<String>) -> Self {
        let mark = format!("{} ", mark.into());
        let hang = textwrap::core::display_width(&mark);
        Self::new().with(Role::Strong, mark).with(Role::Plain, words).hang(hang)
    }

    /// The same line with more words at its end. No space is put between.
    #[must_use]
    pub fn with(mut self, role: Role, words: impl Into<String>) -> Self {
        self.pieces.push(Piece { words: words.into(), role });
        self
    }

    /// The same line moved in by this many columns.
    #[must_use]
    pub fn indent(mut self, columns: usize) -> Self {
        self.indent = columns;
        self
    }

    /// The same line with its continuation moved in by this many columns more.
    #[must_use]
    pub fn hang(mut self, columns: usize) -> Self {
        self.hang = columns;
        self
    }

    /// The words alone.
    pub fn words(&self) -> String {
        self.pieces.iter().map(|piece| piece.words.as_str()).collect()
    }
}
