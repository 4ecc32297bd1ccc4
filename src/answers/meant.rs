//! What a TOML text is meant as, before it is read: a slip in it does not hide that.

/// Whether a line gives this key or begins a table of that name.
pub(super) fn stands_in(text: &str, key: &str) -> bool {
    text.lines().any(|line| {
        let line = line.trim_start();
        let rest = line.strip_prefix("[[").unwrap_or(line).trim_start().strip_prefix(key);
        rest.is_some_and(|rest| rest.trim_start().starts_with(['=', ']']))
    })
}
