//! Times taken here: what is entered says so, so that a reader can tell it from a time that was typed.

use crate::procedure::Reading;

/// What stands behind a time that was taken here.
const MARK: &str = " by stopwatch";

/// What is entered for a time of so many tenths of a second: `12.3 s by stopwatch`.
pub(crate) fn timed_here(tenths: u128) -> String {
    format!("{}.{} s{MARK}", tenths / 10, tenths % 10)
}

/// The amount in what was entered; the mark belongs only to a reading that can be timed here.
pub(in crate::run) fn without_mark<'t>(reading: &Reading, text: &'t str) -> &'t str {
    let amount = text.trim_end().strip_suffix(MARK).filter(|_| reading.stopwatch);
    amount.unwrap_or(text)
}
