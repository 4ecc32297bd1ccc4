//! From Markdown text to a checked procedure.
//!
//! ```text
//! text ─▶ document: split, outline ─▶ written: declarations ─▶ check: names, formulas, steps, rules ─▶ link
//! ```
//!
//! Each stage gives what it could make of the text **and** everything there is to say about it; only the last
//! one decides whether the procedure can be run.

mod access;
mod alone;
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
mod looks;
mod model;
mod name;
mod named;
mod needed;
mod pictures;
mod rare;
mod rows;
mod rules;
mod sheet;
mod sheet_limits;
mod table;
mod tables;
pub mod written;

pub use alone::has_front_matter;
pub use beforehand::Beforehand;
pub use body::*;
pub use codes::codes;
pub use declared::*;
pub use declared_flow::*;
pub use instead::{CountsAs, Instead};
pub use link::{
    FoundAll, Library, LinkedText, NotFound, ReadText, Shelf, follow, is_file, read, read_linked, resolve,
};
pub use looks::Look;
pub use model::{CheckedProcedure, Linked, Place, Repeated};
pub use name::Name;
pub use named::Named;
pub use rare::Rare;
pub use sheet::check_sheet;
pub use tables::Declarations;
pub use written::{
    Alternatives, Check, Condition, Critical, Due, Ground, Hazard, LooseEnd, NamedStep, ResultOf, Role,
    StoppingPoint, Supply, Tool, Typing, Usual, Value, VehicleValue, Wait, Watch, Witness,
};

use table::Table;
use tables::Loss;
