//! TOML read with a span on every key and value, and every mistake reported: front matter, vehicle sheets, answers.
//!
//! Nothing here is derived: a reader asks [`Fields`] for the keys it knows, and what nobody asked for is
//! reported as unknown.

mod codes;
mod fields;
mod kinds;
mod literals;
mod names;
mod parse;
mod scribe;
mod slips;

pub use codes::{CODES, NAME_SHAPE};
pub use fields::{Fields, Item};
pub use kinds::Wording;
pub use literals::{duration, format, optional_quantity, quantity, time, unit};
pub use names::{badly_formed, is_name, mended};
pub use parse::parse;
pub use scribe::Scribe;
pub use slips::Lost;
