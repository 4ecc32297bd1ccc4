//! A unit looked up by its spelling, and the nearest one where there is none.

use std::fmt;

use super::measure::Unit;
use super::row::Row;
use crate::source::clean;
use crate::source::suggest::nearest;

/// A text longer than any unit of the table, in bytes, is not a unit spelled wrong.
const LONGEST_GUESSED: usize = 24;

/// A text that is no unit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownUnit {
    /// What was written.
    pub text: String,
    /// The unit that is spelled nearly like it.
    pub did_you_mean: Option<String>,
}

impl fmt::Display for UnknownUnit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text: String = clean(&self.text).chars().take(40).collect();
        write!(out, "`{text}` is no unit known here; ")?;
        match &self.did_you_mean {
            Some(unit) => write!(out, "did you mean `{unit}`?"),
            None => write!(out, "units are written like `N·m`, `L/min`, `mm²` or `°C`"),
        }
    }
}

impl std::error::Error for UnknownUnit {}

pub(super) fn unknown(text: &str, known: &[(Row, Unit)]) -> UnknownUnit {
    let did_you_mean = if text.len() > LONGEST_GUESSED { None } else { nearest(text, spellings(known)) };
    UnknownUnit { text: text.to_owned(), did_you_mean: did_you_mean.map(str::to_owned) }
}

/// A unit of the table: spelled exactly so, else without regard to capitals if only one unit is meant.
pub(super) fn find<'a>(text: &str, known: &'a [(Row, Unit)]) -> Option<&'a Unit> {
    find_exact(text, known).or_else(|| {
        let mut found =
            known.iter().filter(|(row, _)| names(row).any(|name| name.eq_ignore_ascii_case(text)));
        match (found.next(), found.next()) {
            (Some((_, unit)), None) => Some(unit),
            _ => None,
        }
    })
}

/// A unit of the table spelled exactly so.
pub(super) fn find_exact<'a>(text: &str, known: &'a [(Row, Unit)]) -> Option<&'a Unit> {
    let symbol = known.iter().find(|(row, _)| row.symbol == text);
    let found = symbol.or_else(|| known.iter().find(|(row, _)| row.aliases.contains(&text)));
    found.map(|(_, unit)| unit)
}

fn spellings(known: &[(Row, Unit)]) -> impl Iterator<Item = &'static str> + '_ {
    known.iter().flat_map(|(row, _)| names(row))
}

fn names(row: &Row) -> impl Iterator<Item = &'static str> + use<> {
    std::iter::once(row.symbol).chain(row.aliases.iter().copied())
}
