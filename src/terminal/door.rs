//! The doors to standard output and standard error: whatever leaves the process as words leaves here.
//!
//! Words are cleaned where they are set ([`paint`](super::paint), the printers, the diagnostics). This is the last wall
//! behind them: a printer that forgot it is found out by nobody but harms nobody either. No other file may take hold of
//! the two streams (held by the list in `clippy.toml`).

#![expect(clippy::disallowed_methods, reason = "these are the doors")]

use std::borrow::Cow;
use std::io::{self, IsTerminal, Write};

use console::Term;

use crate::source::clean;

/// The way out to one of the standard streams. What it lets out cannot move the cursor, hide or reorder.
#[derive(Clone, Copy, Debug)]
pub struct Door {
    stream: Standard,
    is_dressed: bool,
}

#[derive(Clone, Copy, Debug)]
enum Standard {
    Output,
    Errors,
}

impl Door {
    /// To standard output.
    pub const fn output() -> Self {
        Self { stream: Standard::Output, is_dressed: false }
    }

    /// To standard error.
    pub const fn errors() -> Self {
        Self { stream: Standard::Errors, is_dressed: false }
    }

    /// The same for text that has colours and other attributes of ours in it.
    #[must_use]
    pub const fn dressed(self, is_dressed: bool) -> Self {
        Self { is_dressed, ..self }
    }

    /// Whether a terminal is behind it.
    pub fn is_terminal(self) -> bool {
        match self.stream {
            Standard::Output => io::stdout().is_terminal(),
            Standard::Errors => io::stderr().is_terminal(),
        }
    }

    /// How many columns the terminal behind it has, if one is.
    pub fn columns(self) -> Option<usize> {
        let size = self.is_terminal().then(|| term(self.stream).size_checked()).flatten();
        size.map(|(_, columns)| usize::from(columns))
    }

    /// Lets a whole text out, at once.
    ///
    /// # Errors
    /// When the stream takes no more: it is closed, or the disk behind it is full.
    pub fn let_out(self, text: &str) -> io::Result<()> {
        let text = self.cleaned(text);
        match self.stream {
            Standard::Output => to(io::stdout().lock(), &text),
            Standard::Errors => to(io::stderr().lock(), &text),
        }
    }

    /// The text as it is let out.
    ///
    /// ```
    /// use bayhand::terminal::Door;
    /// assert_eq!(Door::output().cleaned("pan\u{1b}[2J\u{1b}[1m"), "pan␛[2J␛[1m");
    /// assert_eq!(Door::output().dressed(true).cleaned("\u{1b}[1mpan\u{1b}[0m\u{1b}[8m"), "\u{1b}[1mpan\u{1b}[0m␛[8m");
    /// ```
    pub fn cleaned(self, text: &str) -> Cow<'_, str> {
        if self.is_dressed { dressed(text) } else { bare(text) }
    }
}

fn to(mut stream: impl Write, text: &str) -> io::Result<()> {
    stream.write_all(text.as_bytes()).and_then(|()| stream.flush())
}

/// The terminal itself, for what is drawn on it; its words pass [`dressed`] before.
pub(super) fn terminal() -> Term {
    term(Standard::Output)
}

/// The terminal that is spoken to beside standard output.
pub(super) fn terminal_of_errors() -> Term {
    term(Standard::Errors)
}

/// Standard output as what a signal writes to, past the lock of the library; its words pass [`dressed`] before.
#[cfg(unix)]
pub(super) fn past_the_lock(text: &str) {
    let _ = nix::unistd::write(io::stdout(), text.as_bytes());
}

/// The same of standard error.
#[cfg(unix)]
pub(super) fn errors_past_the_lock(text: &str) {
    let _ = nix::unistd::write(io::stderr(), dressed(text).as_bytes());
}

fn term(stream: Standard) -> Term {
    match stream {
        Standard::Output => Term::stdout(),
        Standard::Errors => Term::stderr(),
    }
}

impl Write for Door {
    /// Whole texts come here; what is no text in the bytes is replaced.
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.let_out(&String::from_utf8_lossy(bytes)).map(|()| bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Text without attributes: no control character leaves but the ends of lines, those of other systems (CR LF) too.
pub(super) fn bare(text: &str) -> Cow<'_, str> {
    match clean(text) {
        Cow::Borrowed(_) => Cow::Borrowed(text),
        Cow::Owned(_) => Cow::Owned(text.split("\r\n").map(clean).collect::<Vec<_>>().join("\r\n")),
    }
}

/// Text with attributes of ours: they stay, and nothing else that a terminal obeys.
pub(super) fn dressed(text: &str) -> Cow<'_, str> {
    const BEGINS: &str = "\u{1b}[";
    if matches!(bare(text), Cow::Borrowed(_)) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(BEGINS) {
        out.push_str(&bare(&rest[..at]));
        let after = &rest[at + BEGINS.len()..];
        let length = attributes(after);
        out.push_str(if length > 0 { BEGINS } else { "␛[" });
        out.push_str(&after[..length]);
        rest = &after[length..];
    }
    out.push_str(&bare(rest));
    Cow::Owned(out)
}

/// How many bytes of this are the numbers of attributes that bayhand sets, with the `m` at their end: none where another
/// sequence stands, or one that hides or blinks.
fn attributes(after: &str) -> usize {
    let end = after.find(|letter: char| !letter.is_ascii_digit() && letter != ';').unwrap_or(after.len());
    let numbers: Vec<&str> = after[..end].split(';').collect();
    if are_ours(&numbers) && after[end..].starts_with('m') { end + 1 } else { 0 }
}

/// One after the other; a colour out of the 256 takes three of them.
fn are_ours(numbers: &[&str]) -> bool {
    match numbers {
        [] => true,
        ["38" | "48", "5", colour, rest @ ..] => colour.parse::<u8>().is_ok() && are_ours(rest),
        [number, rest @ ..] => is_ours(number) && are_ours(rest),
    }
}

/// Bold, dim, italic, underline, reverse, their ends, and the sixteen colours (ECMA-48 section 8.3.117; 90 to 107 are
/// common practice).
fn is_ours(number: &str) -> bool {
    number.is_empty()
        || number.parse::<u8>().is_ok_and(|number| {
            matches!(number, 0..=4 | 7 | 22..=24 | 27 | 30..=37 | 39 | 40..=47 | 49 | 90..=97 | 100..=107)
        })
}
