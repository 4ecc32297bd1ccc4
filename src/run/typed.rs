//! What a person types: texts, names, initials, and times that are taken here and say so.

use crate::procedure::Reading;
use crate::run::refusal::Refusal;

/// The text without the white space around it, if anything is left.
pub(super) fn filled(what: &'static str, text: String) -> Result<String, Refusal> {
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(Refusal::Empty(what));
    }
    Ok(if trimmed.len() == text.len() { text } else { trimmed.to_owned() })
}

/// The first letters of a person's names: `Robin Vale` gives `RV`.
pub fn initials(person: &str) -> String {
    person.split_whitespace().filter_map(|word| word.chars().next()).flat_map(char::to_uppercase).collect()
}

/// Whether somebody said this person's name, any part of it, or the initials.
pub(super) fn names(said: &str, person: &str) -> bool {
    let said = said.trim();
    let is_part = || person.split_whitespace().any(|part| same_person(said, part));
    !said.is_empty() && (same_person(said, person) || said.to_uppercase() == initials(person) || is_part())
}

pub(super) fn same_person(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

/// What stands behind a time that was taken here.
const MARK: &str = " by stopwatch";

/// What is entered for a time of so many tenths of a second: `12.3 s by stopwatch`.
pub(crate) fn timed_here(tenths: u128) -> String {
    format!("{}.{} s{MARK}", tenths / 10, tenths % 10)
}

/// The amount in what was entered; the mark belongs only to a reading that can be timed here.
pub(in crate::run) fn without_mark<'t>(reading: &Reading, text: &'t str) -> &'t str {
    let amount = text.trim_end().strip_suffix(MARK).filter(|_| reading.stopwatch);
    amount.unwrap_or(text)
}
