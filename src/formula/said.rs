//! A formula as a person hears it: the words for what it uses, each with its value, and what it came to.

use std::fmt;

/// The most letters of a sum that still tells its names in between.
const LONGEST: usize = 160;

/// A piece of what is said.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Piece {
    /// Signs and words between the names.
    Words(String),
    /// A name, to be told in its own words.
    Named {
        /// What is made of it over several passes: `sum of `; empty else.
        made: String,
        name: String,
        /// Its value; none where it is told elsewhere, or is not known.
        value: Option<String>,
    },
}

impl Piece {
    pub(super) fn words(words: impl Into<String>) -> Self {
        Self::Words(words.into())
    }
}

/// Puts pieces behind others, in brackets where they are needed.
pub(super) fn bracketed_if(needed: bool, inner: Vec<Piece>, out: &mut Vec<Piece>) {
    out.extend(needed.then(|| Piece::words("(")));
    out.extend(inner);
    out.extend(needed.then(|| Piece::words(")")));
}

/// What is said of a formula.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// The line: `reverse rounds 4.9 L + rinse 1.3 L = 6.2 L`. With long names it has the numbers alone.
    pub line: String,
    /// What each number is, where the line has the numbers alone: `4.9 L: reverse rounds`.
    pub names: Vec<String>,
}

impl Said {
    /// The pieces with the words for each name. What it came to follows, where that is not all that was said.
    pub(super) fn of(pieces: &[Piece], result: Option<&str>, words: &dyn Fn(&str) -> String) -> Self {
        let in_full = ended(pieces, result, |piece| full(piece, words));
        let is_short = in_full.chars().count() <= LONGEST;
        if result.is_none() || is_short || !pieces.iter().any(|piece| value_of(piece).is_some()) {
            return Self { line: in_full, names: Vec::new() };
        }
        let mut names: Vec<String> = Vec::new();
        for piece in pieces {
            if let (Piece::Named { made, name, .. }, Some(value)) = (piece, value_of(piece)) {
                let said = format!("{value}: {made}{}", words(name));
                if !names.contains(&said) {
                    names.push(said);
                }
            }
        }
        Self { line: ended(pieces, result, |piece| number(piece, words)), names }
    }
}

/// In one line, the names behind the numbers where they are apart.
impl fmt::Display for Said {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.line)?;
        self.names.iter().try_for_each(|name| write!(out, "; {name}"))
    }
}

fn value_of(piece: &Piece) -> Option<&str> {
    match piece {
        Piece::Named { value, .. } => value.as_deref(),
        Piece::Words(_) => None,
    }
}

fn full(piece: &Piece, words: &dyn Fn(&str) -> String) -> String {
    match piece {
        Piece::Words(words) => words.clone(),
        Piece::Named { made, name, value: None } => format!("{made}{}", words(name)),
        Piece::Named { made, name, value: Some(value) } => format!("{made}{} {value}", words(name)),
    }
}

fn number(piece: &Piece, words: &dyn Fn(&str) -> String) -> String {
    value_of(piece).map_or_else(|| full(piece, words), str::to_owned)
}

/// The pieces, and the result behind them where it is not what they end in anyway.
fn ended(pieces: &[Piece], result: Option<&str>, said: impl Fn(&Piece) -> String) -> String {
    let way: String = pieces.iter().map(&said).collect();
    let alone = match pieces {
        [only] => value_of(only).or(Some(way.as_str())),
        _ => None,
    };
    match result {
        Some(result) if alone != Some(result) => format!("{way} = {result}"),
        _ => way,
    }
}
