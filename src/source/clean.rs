//! Text made harmless before it is shown: nothing moves the cursor, hides or reorders.

use std::borrow::Cow;

/// `text` with everything that could move the cursor, hide or reorder what is shown made harmless.
///
/// C0 controls and DEL become their visible pictures (`␛`), C1 controls, bidirectional marks and whatever else is
/// not seen become `�`. Newline, tab, the zero-width joiner and variation selectors (which build emoji and some
/// scripts) stay.
///
/// ```
/// assert_eq!(bayhand::source::clean("pan\u{1b}[2J"), "pan␛[2J");
/// assert_eq!(bayhand::source::clean("28 °C\n"), "28 °C\n");
/// ```
pub fn clean(text: &str) -> Cow<'_, str> {
    let is_plain = |byte: u8| matches!(byte, b' '..=b'~' | b'\n' | b'\t');
    if text.bytes().all(is_plain) || text.chars().all(|character| harmless(character) == character) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.chars().map(harmless).collect())
}

/// What [`clean`] does, on one line: line breaks and tabs become spaces.
pub(super) fn clean_line(text: &str) -> String {
    let one_line = text.replace("\r\n", " ").replace(['\n', '\t'], " ");
    clean(&one_line).into_owned()
}

fn harmless(character: char) -> char {
    match character {
        '\n' | '\t' | '\u{200d}' => character,
        '\0'..='\u{1f}' => char::from_u32(0x2400 + u32::from(character)).unwrap_or('\u{fffd}'),
        '\u{7f}' => '\u{2421}',
        '\u{80}'..='\u{9f}' => '\u{fffd}',
        _ if is_unseen(character) => '\u{fffd}',
        _ => character,
    }
}

/// Whether this character changes what is shown and is not seen itself: Unicode 15, format characters (Cf) that have no
/// shape, and those that are to be ignored where they are not known (`Default_Ignorable_Code_Point`).
fn is_unseen(character: char) -> bool {
    matches!(
        character,
        '\u{ad}'
            | '\u{34f}'
            | '\u{61c}'
            | '\u{115f}'..='\u{1160}'
            | '\u{17b4}'..='\u{17b5}'
            | '\u{180b}'..='\u{180f}'
            | '\u{200b}'..='\u{200f}'
            | '\u{2028}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}'
            | '\u{3164}'
            | '\u{feff}'
            | '\u{ffa0}'
            | '\u{fff0}'..='\u{fffb}'
            | '\u{1bca0}'..='\u{1bca3}'
            | '\u{1d173}'..='\u{1d17a}'
            | '\u{e0000}'..='\u{e0fff}'
    )
}

/// Whether this character is left as it is.
pub(super) fn is_harmless(character: char) -> bool {
    harmless(character) == character
}

/// What is shown in its place.
pub(super) fn shown_as(character: char) -> char {
    harmless(character)
}
