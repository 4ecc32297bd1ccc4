//! What a person types: texts, names, initials.

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

/// Whether somebody said this person's name or initials.
pub(super) fn names(said: &str, person: &str) -> bool {
    let said = said.trim();
    !said.is_empty() && (same_person(said, person) || said.to_uppercase() == initials(person))
}

pub(super) fn same_person(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}
