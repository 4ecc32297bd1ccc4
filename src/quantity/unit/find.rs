//! A unit looked up by its spelling, and the nearest one where there is none.

use std::collections::HashMap;
use std::fmt;

use super::measure::Unit;
use super::row::Row;
use crate::source::clean;

/// A text longer than any unit of the table, in bytes, is not a unit spelled wrong.
const LONGEST_GUESSED: usize = 24;
/// From so many letters on, the right word's and the wrong one's together, one wrong letter is a slip and no other unit:
/// `quats` is `quarts`, and `mills` may be mils or miles.
const LONG_WORDS: usize = 11;
/// Blanks and joints, in bytes, that may be more or fewer in a spelling of the same length.
const MOST_JOINTS: usize = 4;
/// Of a shorter unit the same letters in another order, or apart, may well be another one.
const SHORTEST: usize = 4;

/// A text that is no unit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownUnit {
    /// What was written.
    pub text: String,
    /// The unit of which a slip of the fingers makes it; never one that means something else.
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
    let did_you_mean = if text.len() > LONGEST_GUESSED { None } else { slipped_from(text, known) };
    UnknownUnit { text: text.to_owned(), did_you_mean: did_you_mean.map(str::to_owned) }
}

/// The spelling that a slip of the fingers made `text` of; none where different units are as near. A letter more, less or
/// other makes another unit of a short one (`psia` is no `psi`, `imp` no `amp`), so it counts as a slip in a long word only.
fn slipped_from(text: &str, known: &[(Row, Unit)]) -> Option<&'static str> {
    let (typed, small) = (words(text), text.to_lowercase());
    let is_about_as_long = |name: &&str| name.len().abs_diff(small.len()) <= MOST_JOINTS;
    let slipped = |row: &Row| names(row).filter(is_about_as_long).find(|name| is_slip(&typed, &words(name)));
    let (meant, unit) = known.iter().find_map(|(row, unit)| Some((slipped(row)?, unit)))?;
    let is_near = |name: &str| strsim::damerau_levenshtein(&small, &name.to_lowercase()) <= 1;
    let may_be = |row: &Row| slipped(row).is_some() || names(row).filter(is_about_as_long).any(is_near);
    known.iter().all(|(row, other)| other == unit || !may_be(row)).then_some(meant)
}

/// The words in small letters.
fn words(text: &str) -> Vec<String> {
    text.split_whitespace().map(str::to_lowercase).collect()
}

/// Whether both are the same but for blanks and what joins units, or each word is the same or a slip of the other.
fn is_slip(typed: &[String], name: &[String]) -> bool {
    let unjoined = |words: &[String]| words.concat().replace(['.', '-', '·', '*', '^'], "");
    let pairs = || typed.iter().zip(name);
    let alike = |(typed, name): (&String, &String)| typed == name || is_slip_of_word(typed, name);
    let is_long = unjoined(name).chars().count() >= SHORTEST;
    (is_long && unjoined(typed) == unjoined(name)) || (typed.len() == name.len() && pairs().all(alike))
}

fn is_slip_of_word(typed: &str, name: &str) -> bool {
    let (typed, name): (Vec<char>, Vec<char>) = (typed.chars().collect(), name.chars().collect());
    let are_words = typed.iter().chain(&name).all(|letter| letter.is_alphabetic());
    let are_long = typed.len() + name.len() >= LONG_WORDS;
    is_swap(&typed, &name)
        || (are_words && are_long && strsim::generic_damerau_levenshtein(&typed, &name) == 1)
}

/// Whether two neighbours are swapped, and nothing else.
fn is_swap(typed: &[char], name: &[char]) -> bool {
    let differ: Vec<usize> = (0..typed.len().min(name.len())).filter(|at| typed[*at] != name[*at]).collect();
    let [first, second] = differ.as_slice() else { return false };
    typed.len() == name.len()
        && typed.len() >= SHORTEST
        && first + 1 == *second
        && (typed[*first], typed[*second]) == (name[*second], name[*first])
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

/// Where in the table each spelling stands: as [`find_exact`] finds it, a symbol before what others are called besides.
pub(super) fn spellings(known: &[(Row, Unit)]) -> HashMap<&'static str, usize> {
    let mut found = HashMap::new();
    for (place, (row, _)) in known.iter().enumerate() {
        found.entry(row.symbol).or_insert(place);
    }
    for (place, (row, _)) in known.iter().enumerate() {
        for alias in row.aliases {
            found.entry(*alias).or_insert(place);
        }
    }
    found
}

fn names(row: &Row) -> impl Iterator<Item = &'static str> + use<> {
    std::iter::once(row.symbol).chain(row.aliases.iter().copied())
}
