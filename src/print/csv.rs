//! Rows of a table as RFC 4180 has them.

use crate::source::clean;

/// A row: commas between the fields, CR LF after them; a field that holds a comma, a quote or the end of a line stands in
/// quotes, its own quotes doubled.
pub fn csv_row(fields: impl IntoIterator<Item = String>) -> String {
    let quoted = |field: String| {
        if field.contains([',', '"', '\n', '\r']) {
            return format!("\"{}\"", field.replace('"', "\"\""));
        }
        field
    };
    fields.into_iter().map(quoted).collect::<Vec<_>>().join(",") + "\r\n"
}

/// Without control characters, and never what a spreadsheet takes for the beginning of a formula; a negative number is none.
pub fn csv_words(text: &str) -> String {
    let text = clean(text);
    let plain = |letter: char| letter.is_alphanumeric() || " .,:°%·/²³".contains(letter);
    let is_number = text.strip_prefix(['-', '+']).is_some_and(|rest| {
        rest.starts_with(|first: char| first.is_ascii_digit()) && rest.chars().all(plain)
    });
    if text.starts_with(['=', '+', '-', '@', '\t']) && !is_number {
        return format!("'{text}");
    }
    text.into_owned()
}
