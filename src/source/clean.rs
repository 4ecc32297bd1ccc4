use std::borrow::Cow;

/// `text` with everything that could move the cursor, hide or reorder what is shown made harmless.
///
/// C0 controls and DEL become their visible pictures (`␛`), C1 controls, zero-width and bidirectional marks,
/// byte-order marks and tag characters become `�`. Newline, tab and the zero-width joiner (which builds emoji
/// and some scripts) stay.
///
/// ```
/// assert_eq!(bayhand::source::clean("pan\u{1b}[2J"), "pan␛[2J");
/// assert_eq!(bayhand::source::clean("28 °C\n"), "28 °C\n");
/// ```
pub fn clean(text: &str) -> Cow<'_, str> {
    if text.chars().all(|character| harmless(character) == character) {
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
        '\u{80}'..='\u{9f}'
        | '\u{200b}'..='\u{200f}'
        | '\u{2028}'..='\u{202e}'
        | '\u{2066}'..='\u{2069}'
        | '\u{feff}'
        | '\u{e0000}'..='\u{e007f}' => '\u{fffd}',
        _ => character,
    }
}
