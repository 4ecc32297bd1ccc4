//! Answers from a file: the same machine without a person at a terminal.

mod answer;
mod codes;
mod line;
mod people;
mod script;
mod sitting;
mod times;

pub use codes::{ANSWERS_DIFFER, CODES};
pub use line::Line;
pub use script::Script;
