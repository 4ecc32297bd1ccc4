//! The record as text that a stranger can read without bayhand.
//!
//! The first page says in plain words how it came out; the trail of entries stands last. Everything the record says as data
//! is here too, but for the texts and the journal that it was made from: of these stands the hash.

use super::model::Record;
use super::report;
use crate::print;

/// The narrowest that is written; what is asked narrower gets this.
pub const NARROWEST: usize = print::NARROWEST;

/// The first page alone.
pub fn head(record: &Record, width: usize) -> String {
    print::text(&report::page(record).head(), width)
}

/// The record as text, no line wider than `width` (at least [`NARROWEST`]) but what cannot be broken.
pub fn render(record: &Record, width: usize) -> String {
    print::text(&report::page(record), width)
}
