//! What a name may look like, and how to mend one that does not.

use super::codes::NAME_SHAPE;
use crate::source::{Diagnostic, Spanned};

/// Whether a text can be a name: a small letter, then small letters, digits and underscores.
pub fn is_name(text: &str) -> bool {
    let follows = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'_';
    text.starts_with(|first: char| first.is_ascii_lowercase()) && text.bytes().all(follows)
}

/// Says that a name is not written as one.
pub fn badly_formed(name: &Spanned<String>) -> Diagnostic {
    let diagnostic = Diagnostic::error(&NAME_SHAPE, format!("`{}` cannot be a name", name.value));
    let diagnostic = diagnostic.at(name.span, "a name has small letters, digits and underscores");
    match mended(&name.value) {
        Some(better) => diagnostic.help(format!("write `{better}`, here and wherever it is mentioned")),
        None => diagnostic.help("begin with a small letter: `pan_temp`, `gap_2`"),
    }
}

/// The nearest well-formed name.
pub fn mended(text: &str) -> Option<String> {
    let small = text.trim().replace('\\', "").to_lowercase().replace([' ', '-', '.'], "_");
    is_name(&small).then_some(small)
}
