//! The codes of diagnostics: a stable name for each kind of mistake, and what explains it.

/// The stable name of one kind of mistake, and what `bayhand explain` teaches about it.
#[derive(Debug, PartialEq, Eq)]
pub struct Code {
    /// Stable, in plain words with hyphens: `unit-mismatch`.
    pub name: &'static str,
    /// One line: what is wrong.
    pub summary: &'static str,
    /// What it means, why it matters, a wrong and a right example; Markdown.
    pub teaching: &'static str,
}
