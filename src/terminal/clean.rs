//! The one exit for words: nothing leaves for a terminal without passing here.

use std::borrow::Cow;

/// Makes control and direction characters visible and harmless. Line ends stay; a tab becomes a space,
/// because nobody knows how wide it is.
pub(super) fn clean(words: &str) -> Cow<'_, str> {
    if words.chars().all(|c| harmless(c) == c) {
        return Cow::Borrowed(words);
    }
    Cow::Owned(words.chars().map(harmless).collect())
}

/// The same for words that must stay on one line: prompts, labels, items of a list.
pub(super) fn clean_line(words: &str) -> String {
    clean(words).replace('\n', " ")
}

/// The character itself, or the one that stands for it.
fn harmless(c: char) -> char {
    match c {
        '\n' => c,
        '\t' => ' ',
        '\0'..='\u{1f}' => char::from_u32(0x2400 + u32::from(c)).unwrap_or('\u{fffd}'),
        '\u{7f}' => '\u{2421}',
        '\u{80}'..='\u{9f}'
        | '\u{200b}'..='\u{200c}'
        | '\u{200e}'..='\u{200f}'
        | '\u{2028}'..='\u{202e}'
        | '\u{2066}'..='\u{2069}'
        | '\u{feff}'
        | '\u{e0000}'..='\u{e007f}' => '\u{fffd}',
        other => other,
    }
}
