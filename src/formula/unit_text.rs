//! Where the unit of a number begins and ends in a formula.

use super::token::is_word;
use crate::quantity::{Unit, units};

/// Longer than any unit that a person would write after a number.
const LONGEST_UNIT: usize = 48;

/// The unit after the number that ends at `end`, and where it ends.
pub(super) fn unit_after(text: &str, end: usize) -> Option<(usize, Unit)> {
    let start = unit_start(text, end)?;
    let run = unit_run(text.get(start..)?);
    let word = &run[..first_word(run)];
    if is_word(word) && (word != "in" || shows_result(&text[start + word.len()..])) {
        return None;
    }
    let found = longest_unit(run).map(|(length, unit)| (start + length, unit))?;
    let call = text.get(found.0..)?.starts_with('(');
    (!call).then_some(found)
}

/// The longest front of `run` that is a unit, found by growing: the first part that makes no unit ends it, so that
/// a long text costs no more than a short one.
fn longest_unit(run: &str) -> Option<(usize, Unit)> {
    let ends = run.char_indices().map(|(at, letter)| at + letter.len_utf8());
    let grown = ends.filter(|&end| ends_a_unit(run, end));
    grown.map_while(|end| Some((end, Unit::parse(&run[..end]).ok()?))).last()
}

/// Whether what follows `in` is a unit up to the end of the formula: `x^2 in cm²` asks for a unit, `2 in * 3`
/// has inches.
fn shows_result(after: &str) -> bool {
    let unit = after.trim();
    after.starts_with(char::is_whitespace) && !unit.is_empty() && Unit::parse(unit).is_ok()
}

/// Where a unit could begin: right after the number, or after one space.
fn unit_start(text: &str, end: usize) -> Option<usize> {
    let after = text.get(end..)?;
    let spaced = after.strip_prefix(' ');
    let first = spaced.unwrap_or(after).chars().next()?;
    let quote = matches!(first, '"' | '\'');
    let begins = first.is_alphabetic()
        || matches!(first, '°' | '%' | '‰' | '″' | '′' | '¤')
        || (quote && spaced.is_none());
    begins.then_some(end + usize::from(spaced.is_some()))
}

/// The longest text that could be a unit.
fn unit_run(text: &str) -> &str {
    let inside = |letter: char| letter.is_alphanumeric() || "°%‰″′\"'¤·⋅/^-.²³¹⁻".contains(letter);
    let length = text.find(|letter| !inside(letter)).unwrap_or(text.len()).min(LONGEST_UNIT);
    let mut length = length;
    while !text.is_char_boundary(length) {
        length -= 1;
    }
    &text[..length]
}

fn first_word(text: &str) -> usize {
    text.find(|letter: char| !(letter.is_alphanumeric() || letter == '_')).unwrap_or(text.len())
}

/// Whether a unit may end here: not inside a word or a power, and not after a sign that joins.
fn ends_a_unit(run: &str, end: usize) -> bool {
    let joins = |letter: char| matches!(letter, '·' | '⋅' | '/' | '^' | '-' | '.' | '⁻');
    let inside_word =
        |before: char, after: char| (before.is_alphanumeric() || before == '°') && after.is_alphanumeric();
    let before = run[..end].chars().next_back();
    let after = run[end..].chars().next();
    let last = before.is_some_and(|before| !joins(before));
    let inside = before.zip(after).is_some_and(|(before, after)| inside_word(before, after));
    last && !inside && after != Some('°') && !subtracts_or_divides_a_number(&run[..end])
}

/// `2 m-3` and `2 m/3` are arithmetic, `2 s^-1` is a unit.
fn subtracts_or_divides_a_number(unit: &str) -> bool {
    let pairs = unit.chars().zip(unit.chars().skip(1));
    let mut before = ' ';
    for (sign, after) in pairs {
        if matches!(sign, '-' | '/' | '.' | '·') && after.is_ascii_digit() && before != '^' {
            return true;
        }
        before = sign;
    }
    false
}

/// A spelling of a unit with blanks in it right after the number, where its end lies, and one without blanks.
pub(super) fn spaced_unit(text: &str, end: usize) -> Option<(usize, &str, &'static str)> {
    let start = unit_start(text, end)?;
    let after = text.get(start..)?;
    let begins = |name: &str| {
        let front = after.get(..name.len())?;
        let ends = !after[name.len()..].starts_with(|next: char| next.is_alphanumeric() || next == '_');
        (ends && front.eq_ignore_ascii_case(name)).then_some(front)
    };
    let spaced = units().iter().flat_map(|(row, _)| {
        let names = std::iter::once(row.symbol).chain(row.aliases.iter().copied());
        names.filter(|name| name.contains(' ')).filter_map(move |name| Some((begins(name)?, row)))
    });
    let (front, row) = spaced.max_by_key(|(front, _)| front.len())?;
    let mut names = std::iter::once(row.symbol).chain(row.aliases.iter().copied());
    let unspaced = names.find(|name| !name.contains(' '))?;
    Some((start + front.len(), front, unspaced))
}

/// A word directly after the number that is no unit and no word of the formula language.
pub(super) fn stray_word(text: &str, end: usize) -> Option<(usize, &str)> {
    let start = unit_start(text, end)?;
    let after = text.get(start..)?;
    let word = &after[..first_word(after)];
    let call = after[word.len()..].trim_start().starts_with('(');
    (!word.is_empty() && !is_word(word) && !call).then_some((start + word.len(), word))
}
