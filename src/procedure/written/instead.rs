//! `instead` of a reading: words that stand in place of its value, each with its verdict.

use toml::de::DeValue;

use super::codes::word_unknown;
use super::instead_codes::{INSTEAD_AMBIGUOUS, INSTEAD_EMPTY, INSTEAD_MISPLACED};
use super::reading::WrittenKind;
use crate::procedure::instead::same_words;
use crate::procedure::{CountsAs, Instead};
use crate::quantity::{Unit, parse_entry};
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, Item};

/// `instead = { "does not burn" = "pass" }`: words that stand in place of a value, each with its verdict.
pub(super) fn instead(fields: &mut Fields<'_, '_, '_>, kind: Option<&WrittenKind>) -> Vec<Instead> {
    let Some(item) = fields.item("instead") else { return Vec::new() };
    let DeValue::Table(table) = item.value else {
        fields.wrong_type("instead", item, "a table such as `{ \"does not burn\" = \"pass\" }`");
        return Vec::new();
    };
    if let Some(sense) = kind.and_then(without_sense) {
        let headline = format!("{} cannot have `instead`", fields.owner());
        let diagnostic = Diagnostic::error(&INSTEAD_MISPLACED, headline).at(item.key, sense);
        fields
            .scribe
            .note(diagnostic.help("take `instead` out: only a quantity, a count or a choice has it"));
        return Vec::new();
    }
    let written = Fields::new(table, "`instead`", item.key, fields.scribe).rest();
    if written.is_empty() {
        empty(fields, item.span, "no outcome here");
    }
    let mut outcomes: Vec<Instead> = Vec::new();
    for (words, verdict) in written {
        let counts = counts_as(fields, &words, verdict);
        let Some(words) = clear_words(fields, &words, kind, &outcomes) else { continue };
        // What is wrong with its verdict has been said.
        outcomes.push(Instead { words, counts: counts.unwrap_or(CountsAs::Fail) });
    }
    outcomes
}

/// Why this kind of reading has no outcomes beside its answers.
const fn without_sense(kind: &WrittenKind) -> Option<&'static str> {
    match kind {
        WrittenKind::Quantity { .. } | WrittenKind::Count(_) | WrittenKind::Choice { .. } => None,
        WrittenKind::Text => Some("a text says any words itself"),
        WrittenKind::List(_) => Some("a list takes any names itself"),
        WrittenKind::File => Some("a file is there or is not"),
        WrittenKind::Date { .. } => Some("a date is judged by the calendar alone"),
    }
}

fn counts_as(fields: &mut Fields<'_, '_, '_>, words: &Spanned<String>, item: Item<'_>) -> Option<CountsAs> {
    let word = fields.text_of(&words.value, item)?;
    let found = CountsAs::ALL.into_iter().find(|counts| counts.word() == word.value);
    if found.is_none() {
        fields.scribe.note(word_unknown("verdict", &word, &CountsAs::ALL.map(CountsAs::word)));
    }
    found
}

/// The words of an outcome, where nothing else that can be typed is meant by them.
fn clear_words(
    fields: &mut Fields<'_, '_, '_>,
    written: &Spanned<String>,
    kind: Option<&WrittenKind>,
    before: &[Instead],
) -> Option<String> {
    let words = fields.scribe.cleaned(written.value.trim(), written.span).value;
    if words.is_empty() {
        empty(fields, written.span, "no words here");
        return None;
    }
    let twice = before.iter().any(|other| same_words(&other.words, &words));
    let meant = if twice { Some("it stands there twice") } else { kind.and_then(|kind| also(kind, &words)) };
    if let Some(label) = meant {
        let headline = format!("\"{words}\" of {} can be taken for something else", fields.owner());
        let diagnostic = Diagnostic::error(&INSTEAD_AMBIGUOUS, headline).at(written.span, label);
        fields.scribe.note(diagnostic.help("give the outcome words that are no other answer"));
        return None;
    }
    Some(words)
}

/// Which other answer the same words would be.
fn also(kind: &WrittenKind, words: &str) -> Option<&'static str> {
    if ["?", "!"].contains(&words) {
        return Some("it is a key at the prompt");
    }
    let reads_as = |unit: &Unit| parse_entry(words, unit).is_ok();
    match kind {
        WrittenKind::Quantity { unit, .. } => reads_as(&unit.value).then_some("it reads as a number"),
        WrittenKind::Count(_) => reads_as(&Unit::one()).then_some("it reads as a number"),
        WrittenKind::Choice { choices, .. } => {
            let is_choice = choices.iter().any(|choice| same_words(choice, words));
            // The place of a choice in the list can be typed as well.
            let is_place = words.parse::<usize>().is_ok();
            let choice = is_choice.then_some("it is one of the choices");
            choice.or_else(|| is_place.then_some("it reads as the number of a choice"))
        }
        _ => None,
    }
}

fn empty(fields: &mut Fields<'_, '_, '_>, here: crate::source::Span, label: &str) {
    let headline = format!("`instead` of {} names an outcome without words, or none", fields.owner());
    let diagnostic = Diagnostic::error(&INSTEAD_EMPTY, headline).at(here, label);
    fields.scribe.note(diagnostic.help("write `instead = { \"does not burn\" = \"pass\" }`, or take it out"));
}
