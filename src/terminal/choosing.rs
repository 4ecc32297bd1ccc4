//! A choice as a numbered list.

use super::clean::clean_line;
use super::{Line, Text};

/// The numbered list with its prompt above and what to type below.
pub(super) fn list(prompt: &str, items: &[String], default: Option<usize>) -> Text {
    let mut text = Text::plain(prompt);
    for (place, item) in items.iter().enumerate() {
        text = text.line(Line::marked(format!("{}.", place + 1), clean_line(item)).indent(2));
    }
    let ask = match default.filter(|place| *place < items.len()) {
        Some(place) => format!("Type a number; Enter alone takes {}.", place + 1),
        None => "Type a number; Enter alone goes back.".into(),
    };
    text.line(Line::plain(ask))
}

/// What is said to a line that names no item.
pub(super) fn none_of_them(line: &str, items: &[String]) -> Text {
    let said = clean_line(line.trim());
    Text::plain(&format!("`{said}` is none of them. Type a number from 1 to {}.", items.len()))
}

/// Whether a line goes back without a choice.
pub(super) fn goes_back(default: Option<usize>, line: &str) -> bool {
    default.is_none() && line.trim().is_empty()
}

/// The place of the item a line means.
pub(super) fn place_of_line(items: &[String], default: Option<usize>, line: &str) -> Option<usize> {
    let line = line.trim();
    if line.is_empty() {
        return default.filter(|place| *place < items.len());
    }
    let number = line.trim_end_matches('.').parse::<usize>().ok();
    let by_number = number.and_then(|number| number.checked_sub(1)).filter(|place| *place < items.len());
    // An item may itself be a number: its words count before its place.
    items.iter().position(|item| item.trim() == line).or(by_number)
}
