//! Passes of repeats: which belong together, which count, what they are called, when they are due.

mod round;
mod rows;
mod words;

pub use round::{Over, Round};
pub use rows::LateRow;
pub use words::Pass;
