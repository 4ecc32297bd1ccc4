//! From Markdown text to a checked procedure.

mod access;
mod model;
mod named;

pub use model::*;
pub use named::Named;
