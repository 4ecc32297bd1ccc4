//! How the offered keys are shown.

use super::clean::clean_line;
use super::heard::key_name;
use super::{KeyHint, KeyKind, Line, Role, Text};

/// With more keys than this they stand below each other, so that the eye finds one.
const ABREAST: usize = 7;

/// The offered keys in one line: `[y] yes  [n] no  [Enter] done`; many of them one a line. Those that mean the same
/// everywhere stand last, without words.
pub fn offer(keys: &[KeyHint]) -> Text {
    let (common, own): (Vec<&KeyHint>, Vec<&KeyHint>) =
        keys.iter().partition(|hint| hint.kind == KeyKind::Common);
    if own.len() > ABREAST {
        let line = |hint: &&KeyHint| {
            let key = Line::new().with(Role::Strong, format!("[{}]", hint.name()));
            key.with(Role::Plain, format!("\u{a0}{}", hint.does)).hang(4)
        };
        let below = (!common.is_empty()).then(|| abreast(&common));
        return own.iter().map(line).chain(below).fold(Text::new(), Text::line);
    }
    abreast(&own.into_iter().chain(common).collect::<Vec<_>>()).into()
}

fn abreast(keys: &[&KeyHint]) -> Line {
    keys.iter().enumerate().fold(Line::new().hang(2), |line, (n, hint)| {
        // A no-break space keeps a key and its first word together when the line is wrapped.
        let gap = if n == 0 { "" } else { "  " };
        let does = if hint.kind == KeyKind::Common { String::new() } else { format!("\u{a0}{}", hint.does) };
        line.with(Role::Strong, format!("{gap}[{}]", hint.name())).with(Role::Plain, does)
    })
}

/// What is said after a key or a line that was not offered.
pub(super) fn offered_only(typed: &str, keys: &[KeyHint]) -> Text {
    let in_words = keys.iter().map(|hint| hint.clone().being(KeyKind::Own));
    Text::plain(&format!("{} These are:", not_offered(typed))).then(offer(&in_words.collect::<Vec<_>>()))
}

/// The same on a screen where a long list of what is offered still stands.
pub(super) fn offered_above(typed: &str, keys: &[KeyHint]) -> Text {
    if keys.len() <= ABREAST {
        return offered_only(typed, keys);
    }
    Text::plain(&format!("{} The keys that are stand above.", not_offered(typed)))
}

/// What is said of something typed that is no text.
pub(super) fn not_taken(why: &dyn std::fmt::Display) -> Text {
    Text::plain(&format!("Nothing of that is taken: {why}. What was asked is asked still."))
}

fn not_offered(typed: &str) -> String {
    let typed = clean_line(typed.trim());
    let said = if typed.is_empty() { key_name('\n') } else { typed };
    format!("`{said}` is not asked for here.")
}
