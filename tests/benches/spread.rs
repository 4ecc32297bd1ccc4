//! How times are spread.

use std::time::Duration;

/// What so many of a hundred of the times stay within.
pub fn within(percent: usize, times: &mut [Duration]) -> Duration {
    times.sort_unstable();
    times.get(times.len() * percent / 100).copied().unwrap_or_default()
}
