//! How the offered keys are shown.

use super::clean::clean_line;
use super::heard::key_name;
use super::{KeyHint, Line, Role, Text};

/// The offered keys in one line: `[y] yes  [n] no  [Enter] done`.
pub(super) fn offer(keys: &[KeyHint]) -> Line {
    keys.iter().enumerate().fold(Line::new().hang(2), |line, (n, hint)| {
        // A no-break space keeps a key and its first word together when the line is wrapped.
        let gap = if n == 0 { "" } else { "  " };
        line.with(Role::Strong, format!("{gap}[{}]", hint.name()))
            .with(Role::Plain, format!("\u{a0}{}", hint.does))
    })
}

/// What is said after a key or a line that was not offered.
pub(super) fn offered_only(typed: &str, keys: &[KeyHint]) -> Text {
    let typed = clean_line(typed.trim());
    let said = if typed.is_empty() { key_name('\n') } else { typed };
    Text::plain(&format!("`{said}` is not asked for here. These are:")).line(offer(keys))
}
