//! What is left of a wait, in words.

use std::time::Duration;

/// `1 h 5 min`, `12 min 30 s`, `8 s`. A begun second counts, so that 0 s is never shown before the end.
pub(super) fn remaining(left: Duration) -> String {
    let seconds = left.as_secs() + u64::from(left.subsec_nanos() > 0);
    match (seconds / 3600, seconds / 60 % 60, seconds % 60) {
        (0, 0, s) => format!("{s} s"),
        (0, min, s) => format!("{min} min {s} s"),
        (h, min, _) => format!("{h} h {min} min"),
    }
}

/// `12 min 30 s left, over at 21:40`.
pub(super) fn outlook(left: Duration, over_at: &str) -> String {
    format!("{} left, over at {over_at}", remaining(left))
}
