//! Answers from a file: the same machine without a person at a terminal.

mod answer;
mod codes;
mod families;
mod line;
mod script;
mod times;

pub use codes::{ANSWERS_DIFFER, CODES};
pub use line::Line;
pub use script::Script;
