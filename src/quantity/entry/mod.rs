//! What a person types: numbers the way they are written in a workshop, in any unit that fits.

mod clock;
mod literal;
mod number;
mod other;
mod parts;
mod problem;
mod separators;
mod spelling;
mod trouble;
mod typed;

pub use literal::parse_literal;
pub use other::in_other_units;
pub use problem::EntryProblem;
pub use typed::{Entry, parse_entry, parse_typed};
