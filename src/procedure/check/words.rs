//! The words of a step, sentence by sentence.

use crate::procedure::{Piece, Step};

/// Stands for a mention while words are divided.
const MENTION: char = '\u{E000}';

/// What a word looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::procedure) enum Form {
    /// Small letters.
    Small,
    /// A capital letter in front: a name, or the first word of a sentence.
    Capital,
    /// A digit in front.
    Number,
    /// A `[name]`.
    Mention,
}

/// One word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::procedure) struct Word<'t> {
    /// As written, without marks around it; of a mention nothing.
    written: &'t str,
    /// How it was written.
    pub(in crate::procedure) form: Form,
    /// The mark that follows it: a comma, a colon, a full stop.
    pub(in crate::procedure) mark: Option<char>,
}

impl Word<'_> {
    /// Whether it is one of these, which are in small letters.
    pub(in crate::procedure) fn is(&self, words: &[&str]) -> bool {
        words.iter().any(|word| self.written.eq_ignore_ascii_case(word))
    }

    /// Whether it begins so, in small letters.
    pub(in crate::procedure) fn begins(&self, beginning: &str) -> bool {
        self.written.get(..beginning.len()).is_some_and(|front| front.eq_ignore_ascii_case(beginning))
    }

    /// In small letters.
    pub(in crate::procedure) fn low(&self) -> String {
        self.written.to_lowercase()
    }
}

/// What a sentence follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::procedure) enum After {
    /// Nothing: it is the first.
    Nothing,
    /// A full stop, a semicolon, a question or exclamation mark.
    Stop,
    /// A colon.
    Colon,
}

/// The words up to a full stop, a semicolon or a colon.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::procedure) struct Sentence<'t> {
    /// What it follows.
    pub(in crate::procedure) after: After,
    /// Its words.
    pub(in crate::procedure) words: Vec<Word<'t>>,
}

impl<'t> Sentence<'t> {
    /// The mark at its end.
    pub(in crate::procedure) fn mark(&self) -> Option<char> {
        self.words.last()?.mark
    }

    /// The stretches between commas.
    pub(in crate::procedure) fn clauses(&self) -> impl Iterator<Item = &[Word<'t>]> {
        self.words.split_inclusive(|word| word.mark == Some(','))
    }
}

/// What is said in a text, to be divided into sentences. What stands in brackets or in quotes is left out.
#[derive(Clone, Debug)]
pub(in crate::procedure) struct Speech(String);

impl Speech {
    /// What a step's own text says; a data sheet says nothing.
    pub(in crate::procedure) fn of_step(step: &Step) -> Self {
        let mut text = String::new();
        for piece in &step.text {
            match piece {
                Piece::Text(words) => text.push_str(words),
                Piece::Mention(_) => text.push(MENTION),
            }
        }
        Self::of(if text.contains(" | ") { "" } else { &text })
    }

    /// What a text of the front matter says.
    pub(in crate::procedure) fn of(text: &str) -> Self {
        Self(outside(text))
    }

    /// Sentence by sentence.
    pub(in crate::procedure) fn sentences(&self) -> Vec<Sentence<'_>> {
        let mut sentences = Vec::new();
        let mut open = Sentence { after: After::Nothing, words: Vec::new() };
        let mut tokens = self.0.split_whitespace().peekable();
        while let Some(token) = tokens.next() {
            let mark = mark(token, tokens.peek().copied().unwrap_or_default());
            open.words.extend(word(token, mark));
            let after = match mark {
                Some(':') => After::Colon,
                Some('.') => After::Stop,
                _ => continue,
            };
            sentences.push(std::mem::replace(&mut open, Sentence { after, words: Vec::new() }));
        }
        sentences.push(open);
        sentences.retain(|sentence| !sentence.words.is_empty());
        sentences
    }
}

/// A text without what stands in brackets or in double quotes, its apostrophes straight.
fn outside(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let (mut depth, mut quoted) = (0_usize, false);
    for letter in text.chars() {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            '"' | '\u{201C}' | '\u{201D}' => quoted = !quoted,
            _ if depth > 0 || quoted => {}
            '\u{2019}' => out.push('\''),
            _ => out.push(letter),
        }
    }
    out
}

/// The mark after a word; a point that small letters follow belongs to an abbreviation.
fn mark(token: &str, next: &str) -> Option<char> {
    match token.chars().last()? {
        ';' | '!' | '?' => Some('.'),
        '.' if !next.starts_with(char::is_lowercase) => Some('.'),
        mark @ (':' | ',') => Some(mark),
        _ if next == "-" || next == "\u{2013}" => Some(','),
        _ => None,
    }
}

fn word(token: &str, mark: Option<char>) -> Option<Word<'_>> {
    if token.contains(MENTION) {
        return Some(Word { written: "", form: Form::Mention, mark });
    }
    let written = token.trim_matches(|letter: char| !letter.is_alphanumeric());
    let first = written.chars().next()?;
    let form = match first {
        _ if first.is_numeric() => Form::Number,
        _ if first.is_uppercase() => Form::Capital,
        _ => Form::Small,
    };
    Some(Word { written, form, mark })
}
