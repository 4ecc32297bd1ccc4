//! From Markdown text to a checked procedure.
//!
//! ```text
//! text ─▶ document: split, outline ─▶ written: declarations ─▶ check: names, formulas, steps, rules ─▶ link
//! ```
//!
//! Each stage gives what it could make of the text **and** everything there is to say about it; only the last
//! one decides whether the procedure can be run.

mod access;
mod beforehand;
mod body;
mod check;
mod codes;
mod declarable;
mod declared;
mod declared_flow;
pub mod document;
mod index;
mod instead;
mod link;
mod model;
mod named;
mod read;
mod rules;
mod sheet;
mod sheet_limits;
mod tables;
pub mod written;

pub use beforehand::Beforehand;
pub use body::*;
pub use codes::codes;
pub use declared::*;
pub use declared_flow::*;
pub use index::Repeated;
pub use instead::{CountsAs, Instead};
pub use link::{FoundAll, Library, LinkedText, NotFound, Shelf, read_linked};
pub use model::{CheckedProcedure, Linked, Name, Place};
pub use named::Named;
pub use read::read;
pub use sheet::check_sheet;
pub use tables::*;

use declarable::Entry;
