//! Answers from a file: the same machine without a person at a terminal.

mod answer;
mod codes;
mod families;
mod job_script;
mod line;
mod meant;
mod script;
mod times;

pub use codes::{ANSWERS_DIFFER, CODES};
pub use job_script::{JobScript, RunScript};
pub use line::Line;
pub use script::Script;
