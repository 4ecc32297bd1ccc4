//! The front matter is cut off by hand: a Markdown parser would silently take a broken fence for prose.

use super::codes::{
    BYTE_ORDER_MARK, FRONT_MATTER_EMPTY, FRONT_MATTER_FENCE, FRONT_MATTER_MISSING, FRONT_MATTER_NOT_FIRST,
    FRONT_MATTER_UNCLOSED, FRONT_MATTER_YAML,
};
use crate::source::{Diagnostic, Found, Span};

const FENCE: &str = "+++";
const YAML: &str = "---";

/// Where the two halves of a procedure file lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Split {
    /// The TOML between the fences; none where it cannot be told.
    pub front: Option<Span>,
    /// The Markdown after them.
    pub body: Span,
}

/// Cuts the text of a procedure file in two.
pub fn split(text: &str) -> Found<Split> {
    let mut diagnostics = Vec::new();
    let start = skip_mark(text, &mut diagnostics);
    let value = match Opening::of(text, start) {
        Opening::Fence(after) => between(text, Span::new(start, after), &mut diagnostics),
        Opening::Crowded(diagnostic, fence) | Opening::Late(diagnostic, fence) => {
            diagnostics.push(diagnostic);
            between(text, fence, &mut diagnostics)
        }
        Opening::Lost(diagnostic, body) => {
            diagnostics.push(diagnostic);
            Split { front: None, body: Span::new(body, text.len()) }
        }
    };
    Found { value, diagnostics }
}

fn skip_mark(text: &str, diagnostics: &mut Vec<Diagnostic>) -> usize {
    const MARK: char = '\u{feff}';
    if !text.starts_with(MARK) {
        return 0;
    }
    let end = MARK.len_utf8();
    let span = Span::new(0, end);
    let diagnostic = Diagnostic::warning(&BYTE_ORDER_MARK, "the file begins with a byte-order mark");
    let diagnostic = diagnostic.at(span, "three bytes that no editor shows");
    diagnostics.push(diagnostic.help("save the file as UTF-8 without a byte-order mark").replace(span, ""));
    end
}

/// How the file begins.
enum Opening {
    /// As it should; the second line begins here.
    Fence(usize),
    /// With a fence that has company; its line.
    Crowded(Diagnostic, Span),
    /// With something else, and a fence follows; its line.
    Late(Diagnostic, Span),
    /// Without any fence; the body begins here.
    Lost(Diagnostic, usize),
}

impl Opening {
    fn of(text: &str, start: usize) -> Self {
        let (line, next) = line_at(text, start);
        if line.trim_end() == FENCE {
            return Self::Fence(next);
        }
        if line.starts_with(FENCE) {
            return Self::Crowded(crowded(line, start), Span::new(start, next));
        }
        if line.trim_end() == YAML {
            return Self::Lost(yaml(start), after_line(text, next, YAML).unwrap_or(text.len()));
        }
        match fence_after(text, next) {
            Some(fence) => Self::Late(late(text, start, fence), Span::new(fence, line_at(text, fence).1)),
            None => Self::Lost(missing(line, start), start),
        }
    }
}

fn crowded(line: &str, start: usize) -> Diagnostic {
    let span = Span::new(start + FENCE.len(), start + line.trim_end().len());
    Diagnostic::error(&FRONT_MATTER_FENCE, "a `+++` line holds more than the three signs")
        .at(span, "this does not belong here")
        .help("let `+++` stand alone on its line")
        .replace(span, "")
}

fn yaml(start: usize) -> Diagnostic {
    let here = Span::new(start, start + YAML.len());
    Diagnostic::error(&FRONT_MATTER_YAML, "the front matter stands between `---` lines")
        .at(here, "`---` marks another language")
        .help("put `+++` here and at its end, and write TOML between")
        .replace(here, FENCE)
}

fn late(text: &str, start: usize, fence: usize) -> Diagnostic {
    let headline = "the front matter does not stand at the beginning";
    let diagnostic = Diagnostic::error(&FRONT_MATTER_NOT_FIRST, headline);
    let diagnostic = diagnostic.at(Span::new(fence, fence + FENCE.len()), "it begins here");
    let before = text[start..fence].trim();
    let diagnostic = match before.lines().next() {
        Some(line) => {
            let at = start + text[start..].find(line).unwrap_or_default();
            diagnostic.also(Span::new(at, at + line.len()), "this stands before it")
        }
        None => diagnostic.note("only empty lines stand before it"),
    };
    diagnostic.help("move `+++` and what follows up to the first line")
}

fn missing(line: &str, start: usize) -> Diagnostic {
    Diagnostic::error(&FRONT_MATTER_MISSING, "the file has no front matter")
        .at(Span::new(start, start + line.trim_end().len()), "the first line should be `+++`")
        .help("begin with `+++`, `format = 1`, the tables, and another `+++` line")
}

/// Where the line after the first line `wanted` begins.
fn after_line(text: &str, from: usize, wanted: &str) -> Option<usize> {
    let mut at = from;
    while at < text.len() {
        let (line, next) = line_at(text, at);
        if line.trim_end() == wanted {
            return Some(next);
        }
        at = next;
    }
    None
}

/// Where the first later line that is a fence begins, if another one closes it.
fn fence_after(text: &str, from: usize) -> Option<usize> {
    let mut at = from;
    while at < text.len() {
        let (line, next) = line_at(text, at);
        if line.trim_end() == FENCE {
            return closing(text, next).map(|_| at);
        }
        at = next;
    }
    None
}

fn between(text: &str, opening: Span, diagnostics: &mut Vec<Diagnostic>) -> Split {
    let Some((line, close, next)) = closing(text, opening.end) else {
        diagnostics.push(unclosed(opening));
        return Split { front: None, body: Span::new(text.len(), text.len()) };
    };
    if line.trim_end() != FENCE {
        diagnostics.push(crowded(line, close));
    }
    let front = Span::new(opening.end, close);
    if text[opening.end..close].trim().is_empty() {
        let diagnostic = Diagnostic::error(&FRONT_MATTER_EMPTY, "the front matter is empty");
        let diagnostic =
            diagnostic.at(opening.to(Span::new(close, close + FENCE.len())), "nothing between the fences");
        diagnostics
            .push(diagnostic.help("begin with `format = 1`, then `revision`, `date`, `author`, `scope`"));
        return Split { front: None, body: Span::new(next, text.len()) };
    }
    Split { front: Some(front), body: Span::new(next, text.len()) }
}

fn unclosed(opening: Span) -> Diagnostic {
    let here = Span::new(opening.start, opening.start + FENCE.len());
    Diagnostic::error(&FRONT_MATTER_UNCLOSED, "the front matter is not closed")
        .at(here, "no second `+++` line follows")
        .help("put a line `+++` between the tables and the title")
}

/// The closing line, where it begins and where the body begins: a bare fence, else the first line that begins
/// with one.
fn closing(text: &str, from: usize) -> Option<(&str, usize, usize)> {
    let rest = text.get(from..)?;
    let begins = |at: usize| rest[at..].starts_with(FENCE) && (at == 0 || rest[..at].ends_with('\n'));
    let fences = rest.match_indices('+').map(|(at, _)| at).filter(|at| begins(*at));
    let mut second_best = None;
    for at in fences {
        let (line, next) = line_at(text, from + at);
        if line.trim_end() == FENCE {
            return Some((line, from + at, next));
        }
        second_best = second_best.or(Some((line, from + at, next)));
    }
    second_best
}

/// The line that begins at `at`, without its ending, and where the next one begins.
fn line_at(text: &str, at: usize) -> (&str, usize) {
    let rest = &text[at..];
    match rest.find('\n') {
        Some(end) => (rest[..end].trim_end_matches('\r'), at + end + 1),
        None => (rest, text.len()),
    }
}
