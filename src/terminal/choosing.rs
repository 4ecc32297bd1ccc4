//! A choice as a numbered list.

use super::clean::clean_line;
use super::{Line, Text};

/// The numbered list with its prompt above and what to type below.
pub(super) fn list(prompt: &str, items: &[String]) -> Text {
    let mut text = Text::plain(prompt);
    for (place, item) in items.iter().enumerate() {
        text = text.line(Line::marked(format!("{}.", place + 1), clean_line(item)).indent(2));
    }
    text.line(Line::plain("Type a number; Enter alone goes back."))
}

/// What is said to a line that names no item.
pub(super) fn none_of_them(line: &str, items: &[String]) -> Text {
    let said = clean_line(line.trim());
    Text::plain(&format!("`{said}` is none of them. Type a number from 1 to {}.", items.len()))
}

/// The place of the item a line means.
pub(super) fn place_of_line(items: &[String], line: &str) -> Option<usize> {
    let line = line.trim();
    let number = line.trim_end_matches('.').parse::<usize>().ok();
    let by_number = number.and_then(|number| number.checked_sub(1)).filter(|place| *place < items.len());
    // An item may itself be a number: its words count before its place.
    let is_first_word = |item: &String| item.split_whitespace().next() == Some(line);
    let by_words = items.iter().position(|item| item.trim() == line);
    by_words.or(by_number).or_else(|| items.iter().position(is_first_word))
}
