//! What was written: the front matter cut off, the body cut into sections, steps and passages. Names have no
//! meaning yet.

mod blocks;
mod build;
mod codes;
mod inline;
mod lists;
mod outline;
mod parse;
mod references;
mod said;
mod split;
mod step_numbers;

pub use codes::CODES;
pub(super) use codes::{FRONT_MATTER_MISSING, FRONT_MATTER_YAML};
pub use outline::{Heading, Outline, Part, Written, WrittenLink};
pub use parse::outline;
pub use references::{Reference, ReferenceKind};
pub use split::{Split, split};
pub use step_numbers::{StepNumbers, step_numbers};
