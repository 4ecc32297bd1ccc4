//! A diagnostic: what is wrong, where, why, and what to type.

use super::Span;

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

/// How much a diagnostic weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Nothing can be built on this.
    Error,
    /// It works, and is likely not what was meant.
    Warning,
}

/// A place in the source and what is to be said of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// Where.
    pub span: Span,
    /// What is wrong here, or what this is.
    pub text: String,
    /// Whether this is the place of the mistake itself.
    pub primary: bool,
}

/// A replacement that would mend it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fix {
    /// What to replace; empty to insert.
    pub span: Span,
    /// With what.
    pub text: String,
}

/// One thing to tell the author of a text. Data only; renderers are separate.
///
/// The message is a headline in lower case without a full stop, with names in back-ticks; the labels say
/// what is wrong where, the notes why, the help what to type.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Diagnostic {
    /// Which kind of mistake.
    pub code: &'static Code,
    /// How much it weighs.
    pub severity: Severity,
    /// The headline.
    pub message: String,
    /// Places, the primary one first.
    pub labels: Vec<Label>,
    /// Why.
    pub notes: Vec<String>,
    /// What to type.
    pub help: Option<String>,
    /// The text that would mend it.
    pub fix: Option<Fix>,
}

impl Diagnostic {
    /// An error, still without a place.
    pub fn error(code: &'static Code, message: impl Into<String>) -> Self {
        Self::new(code, Severity::Error, message.into())
    }

    /// A warning, still without a place.
    pub fn warning(code: &'static Code, message: impl Into<String>) -> Self {
        Self::new(code, Severity::Warning, message.into())
    }

    fn new(code: &'static Code, severity: Severity, message: String) -> Self {
        // Most have one label, and a broken file has many findings.
        let labels = Vec::with_capacity(1);
        Self { code, severity, message, labels, notes: Vec::new(), help: None, fix: None }
    }

    /// The place of the mistake and what is wrong there.
    #[must_use]
    pub fn at(mut self, span: Span, text: impl Into<String>) -> Self {
        self.labels.push(Label { span, text: text.into(), primary: true });
        self
    }

    /// Another place that has to do with it.
    #[must_use]
    pub fn also(mut self, span: Span, text: impl Into<String>) -> Self {
        self.labels.push(Label { span, text: text.into(), primary: false });
        self
    }

    /// Why it is so.
    #[must_use]
    pub fn note(mut self, text: impl Into<String>) -> Self {
        self.notes.push(text.into());
        self
    }

    /// What to type.
    #[must_use]
    pub fn help(mut self, text: impl Into<String>) -> Self {
        self.help = Some(text.into());
        self
    }

    /// The replacement that would mend it.
    #[must_use]
    pub fn replace(mut self, span: Span, text: impl Into<String>) -> Self {
        self.fix = Some(Fix { span, text: text.into() });
        self
    }

    /// Where the mistake is: the first primary label, else the first label.
    pub fn place(&self) -> Option<Span> {
        let primary = self.labels.iter().find(|label| label.primary);
        primary.or(self.labels.first()).map(|label| label.span)
    }
}

/// A value and everything there is to say about the text it came from.
#[derive(Clone, Debug)]
pub struct Found<T> {
    /// What was made of the text.
    pub value: T,
    /// Mistakes and doubts, in the order of the text.
    pub diagnostics: Vec<Diagnostic>,
}
