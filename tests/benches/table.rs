//! The rows in which a bench tells what it found. `tests/benches/run` makes one table of them all.

use std::time::Duration;

/// A measure, what was found, and what is wanted of it; nothing where it only explains another.
pub fn row(measure: &str, found: &str, wanted: &str) {
    println!("| {measure} | {found} | {wanted} |");
}

/// One time as a multiple of another.
pub fn ratio(time: Duration, to: Duration) -> String {
    format!("{:.2}", time.as_secs_f64() / to.as_secs_f64())
}
