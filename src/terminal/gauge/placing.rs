//! Placing numbers on a line so that their order is kept and none covers another.

use textwrap::core::display_width;

use super::Mark;
use crate::terminal::{Line, Role};

/// The line where readings are wanted.
const WANTED: &str = "━";
/// The line where they are not.
const UNWANTED: &str = "·";

/// What a token means to the line around it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Lower,
    Upper,
    Target,
    Reading,
}

/// A number on its way to the line.
#[derive(Debug, Clone)]
pub(super) struct Token {
    kind: Kind,
    words: String,
    role: Role,
    /// Fraction of the line.
    at: f64,
}

impl Token {
    pub(super) fn lower(mark: &Mark, at: f64) -> Self {
        Self { kind: Kind::Lower, words: format!(" {} ", mark.label), role: Role::Strong, at }
    }

    pub(super) fn upper(mark: &Mark, at: f64) -> Self {
        Self { kind: Kind::Upper, words: format!(" {} ", mark.label), role: Role::Strong, at }
    }

    pub(super) fn target(mark: &Mark, at: f64) -> Self {
        Self { kind: Kind::Target, words: format!(" ({}) ", mark.label), role: Role::Plain, at }
    }

    /// A reading beyond the ends of the line stands at the end, with an arrow that says so.
    pub(super) fn reading(mark: &Mark, at: f64, role: Role) -> Self {
        let words = match at {
            at if at < 0.0 => format!("‹[{}] ", mark.label),
            at if at > 1.0 => format!(" [{}]›", mark.label),
            _ => format!(" [{}] ", mark.label),
        };
        Self { kind: Kind::Reading, words, role, at }
    }

    pub(super) fn is_target(&self) -> bool {
        self.kind == Kind::Target
    }

    fn width(&self) -> usize {
        display_width(&self.words)
    }

    /// The column it would like to begin at.
    fn wish(&self, width: usize) -> usize {
        #[expect(clippy::cast_precision_loss, reason = "columns of a screen")]
        let middle = self.at.clamp(0.0, 1.0) * width as f64;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 0 and the width"
        )]
        let middle = middle as usize;
        middle.saturating_sub(self.width() / 2)
    }
}

/// The line, or nothing where the numbers have no room beside each other.
pub(super) fn place(tokens: &[Token], width: usize) -> Option<Line> {
    let taken: usize = tokens.iter().map(Token::width).sum();
    if tokens.is_empty() || taken > width {
        return None;
    }
    Some(draw(tokens, &starts(tokens, width), width))
}

/// The column each token begins at: as near to its wish as its neighbours allow.
fn starts(tokens: &[Token], width: usize) -> Vec<usize> {
    let mut starts = Vec::new();
    let mut free = 0;
    for token in tokens {
        let start = token.wish(width).max(free);
        free = start + token.width();
        starts.push(start);
    }
    let mut end = width;
    for (start, token) in starts.iter_mut().zip(tokens).rev() {
        *start = (*start).min(end.saturating_sub(token.width()));
        end = *start;
    }
    starts
}

fn draw(tokens: &[Token], starts: &[usize], width: usize) -> Line {
    let mut line = Line::new();
    let mut at = 0;
    let has_lower = tokens.iter().any(|token| token.kind == Kind::Lower);
    let mut track = if has_lower { UNWANTED } else { WANTED };
    for (token, start) in tokens.iter().zip(starts) {
        line = line.with(Role::Faint, track.repeat(start.saturating_sub(at))).with(token.role, &token.words);
        at = start + token.width();
        track = match token.kind {
            Kind::Lower => WANTED,
            Kind::Upper => UNWANTED,
            Kind::Target | Kind::Reading => track,
        };
    }
    line.with(Role::Faint, track.repeat(width.saturating_sub(at)))
}
