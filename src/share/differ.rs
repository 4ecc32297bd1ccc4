//! What differs between a file that is there and one that came, in a few lines.

use similar::{ChangeTag, TextDiff};

/// The most lines that are told of one file.
const MOST_LINES: usize = 12;

/// What differs, line by line: `-` before what is there, `+` before what came.
///
/// ```
/// use bayhand::share::differences;
///
/// let lines = differences(b"one\ntwo\n", b"one\nthree\n");
/// assert_eq!(lines, ["line 2:", "- two", "+ three"]);
/// ```
pub fn differences(there: &[u8], came: &[u8]) -> Vec<String> {
    let (Ok(old), Ok(new)) = (std::str::from_utf8(there), std::str::from_utf8(came)) else {
        return vec![format!("{} bytes are there, {} came; it is no text", there.len(), came.len())];
    };
    if old.replace('\r', "") == new.replace('\r', "") {
        return vec!["only the ends of the lines differ".to_owned()];
    }
    let diff = TextDiff::from_lines(old, new);
    let mut lines = Vec::new();
    let mut is_apart = true;
    let mut at = 1;
    for change in diff.iter_all_changes() {
        let sign = match change.tag() {
            ChangeTag::Equal => {
                is_apart = true;
                at = change.old_index().map_or(at, |index| index + 2);
                continue;
            }
            ChangeTag::Delete => '-',
            ChangeTag::Insert => '+',
        };
        if is_apart {
            lines.push(format!("line {at}:"));
            is_apart = false;
        }
        lines.push(format!("{sign} {}", change.value().trim_end_matches(['\n', '\r'])));
    }
    if lines.len() > MOST_LINES {
        let more = lines.split_off(MOST_LINES).iter().filter(|line| line.starts_with(['-', '+'])).count();
        lines.push(format!("and {more} lines more"));
    }
    lines
}
