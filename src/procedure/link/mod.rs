//! Links to other procedures: one that a step links to is read, checked by itself, and taken into that step.
//!
//! ```text
//! own text ─▶ read and checked alone ─┐
//! linked texts ─▶ each read, checked, with what it links to itself ─▶ names renamed ─▶ sections become parts
//! ```
//!
//! Nothing after this stage knows of several procedures: a run goes by one row of steps.

mod address;
mod clash;
mod codes;
mod follow;
mod free_order;
mod library;
mod parts;
mod rename;
mod renamed;
mod take_in;

pub(in crate::procedure) use address::is_procedure;
pub use address::{is_file, resolve};
pub use codes::CODES;
pub use follow::{FoundAll, LinkedText, follow, read, read_linked};
pub use library::{Library, NotFound, ReadText, Shelf};
pub(in crate::procedure) use rename::{Rename, Renaming, all_fields};
