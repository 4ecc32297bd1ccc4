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
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::procedure) struct Word {
    /// In small letters, without marks around it.
    pub(in crate::procedure) low: String,
    /// How it was written.
    pub(in crate::procedure) form: Form,
    /// The mark that follows it: a comma, a colon, a full stop.
    pub(in crate::procedure) mark: Option<char>,
}

impl Word {
    /// Whether it is one of these.
    pub(in crate::procedure) fn is(&self, words: &[&str]) -> bool {
        self.form != Form::Mention && words.contains(&self.low.as_str())
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
pub(in crate::procedure) struct Sentence {
    /// What it follows.
    pub(in crate::procedure) after: After,
    /// Its words.
    pub(in crate::procedure) words: Vec<Word>,
}

impl Sentence {
    /// The mark at its end.
    pub(in crate::procedure) fn mark(&self) -> Option<char> {
        self.words.last()?.mark
    }

    /// The stretches between commas.
    pub(in crate::procedure) fn clauses(&self) -> impl Iterator<Item = &[Word]> {
        self.words.split_inclusive(|word| word.mark == Some(','))
    }
}

/// The sentences of a step's own text. What stands in brackets or in quotes is left out; so are data sheets.
pub(in crate::procedure) fn sentences(step: &Step) -> Vec<Sentence> {
    let words = step.text.iter().map(|piece| match piece {
        Piece::Text(words) => words.clone(),
        Piece::Mention(_) => MENTION.to_string(),
    });
    let text: String = words.collect();
    if text.contains(" | ") { Vec::new() } else { divided(&outside(&text)) }
}

/// The words of a text of the front matter.
pub(in crate::procedure) fn of_text(text: &str) -> Vec<Sentence> {
    divided(&outside(text))
}

/// A text without what stands in brackets or in double quotes.
fn outside(text: &str) -> String {
    let mut out = String::new();
    let (mut depth, mut quoted) = (0_usize, false);
    for letter in text.replace('\u{2019}', "'").chars() {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            '"' | '\u{201C}' | '\u{201D}' => quoted = !quoted,
            _ if depth == 0 && !quoted => out.push(letter),
            _ => {}
        }
    }
    out
}

fn divided(text: &str) -> Vec<Sentence> {
    let mut sentences = Vec::new();
    let mut open = Sentence { after: After::Nothing, words: Vec::new() };
    let tokens: Vec<&str> = text.split_whitespace().collect();
    for (index, token) in tokens.iter().enumerate() {
        let next = tokens.get(index + 1).copied().unwrap_or_default();
        let mark = mark(token, next);
        open.words.extend(word(token, mark));
        let after = match mark {
            Some(':') => After::Colon,
            Some('.') => After::Stop,
            _ => continue,
        };
        let next = Sentence { after, words: Vec::new() };
        sentences.push(std::mem::replace(&mut open, next));
    }
    sentences.push(open);
    sentences.retain(|sentence| !sentence.words.is_empty());
    sentences
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

fn word(token: &str, mark: Option<char>) -> Option<Word> {
    if token.contains(MENTION) {
        return Some(Word { low: String::new(), form: Form::Mention, mark });
    }
    let bare = token.trim_matches(|letter: char| !letter.is_alphanumeric());
    let first = bare.chars().next()?;
    let form = match first {
        _ if first.is_numeric() => Form::Number,
        _ if first.is_uppercase() => Form::Capital,
        _ => Form::Small,
    };
    Some(Word { low: bare.to_lowercase(), form, mark })
}
