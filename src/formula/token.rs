//! The pieces that a formula is cut into, and how each mark is written.

use crate::quantity::{Quantity, Unit};
use crate::source::Spanned;

/// The smallest piece of a formula that means something.
#[derive(Clone, Debug)]
pub(super) enum Token {
    /// A number with its unit; a plain number has the unit one.
    Number(Quantity),
    /// A text in quotes.
    Text(String),
    /// A name of something or of a function.
    Name(String),
    /// An operator, a bracket or another mark.
    Mark(Mark),
    /// `in` and the unit to show the result in.
    In(Unit),
    /// After the last piece.
    End,
}

/// Marks and words that stand for themselves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Mark {
    Plus,
    Minus,
    Times,
    Over,
    Power,
    Open,
    Close,
    Comma,
    Assign,
    Less,
    AtMost,
    More,
    AtLeast,
    Equal,
    Unequal,
    And,
    Or,
    Not,
    If,
    Then,
    Else,
    True,
    False,
}

pub(super) type Placed = Spanned<Token>;

/// Every way to write a mark; where one spelling begins another, the longer one stands first.
const SPELLINGS: &[(&str, Mark)] = &[
    ("<=", Mark::AtMost),
    (">=", Mark::AtLeast),
    ("==", Mark::Equal),
    ("!=", Mark::Unequal),
    ("≤", Mark::AtMost),
    ("≥", Mark::AtLeast),
    ("≠", Mark::Unequal),
    ("<", Mark::Less),
    (">", Mark::More),
    ("=", Mark::Assign),
    ("+", Mark::Plus),
    ("-", Mark::Minus),
    ("−", Mark::Minus),
    ("*", Mark::Times),
    ("·", Mark::Times),
    ("⋅", Mark::Times),
    ("×", Mark::Times),
    ("/", Mark::Over),
    ("÷", Mark::Over),
    ("^", Mark::Power),
    ("(", Mark::Open),
    (")", Mark::Close),
    (",", Mark::Comma),
];

const WORDS: &[(&str, Mark)] = &[
    ("and", Mark::And),
    ("or", Mark::Or),
    ("not", Mark::Not),
    ("if", Mark::If),
    ("then", Mark::Then),
    ("else", Mark::Else),
    ("true", Mark::True),
    ("false", Mark::False),
];

/// The mark at the front of `text` and how it is spelled there.
pub(super) fn mark_at(text: &str) -> Option<(&'static str, Mark)> {
    SPELLINGS.iter().copied().find(|(spelling, _)| text.starts_with(spelling))
}

/// The mark that is written as this word.
pub(super) fn mark_of(word: &str) -> Option<Mark> {
    WORDS.iter().find(|(spelling, _)| *spelling == word).map(|(_, mark)| *mark)
}

/// Whether a word means something in every formula, so that nothing can be called by it.
pub(super) fn is_word(word: &str) -> bool {
    word == "in" || mark_of(word).is_some()
}
