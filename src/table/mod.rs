//! TOML read with a span on every key and value, and every mistake reported: front matter, vehicle sheets.
//!
//! Nothing here is derived: a reader asks [`Fields`] for the keys it knows, and what nobody asked for is
//! reported as unknown.

mod codes;
mod fields;
mod kinds;
mod parse;
mod scribe;

pub use codes::CODES;
pub use fields::{Fields, Item};
pub use kinds::Wording;
pub use parse::parse;
pub use scribe::Scribe;
