//! The work as it is unrolled by a run: a tree of occurrences, and what was said at each.

mod facts;
mod part;
mod tree;

pub use facts::{Accepted, Attempts, Called, HoldSaid, HoldWord, Said};
pub use part::{Address, Part, Turns};
pub use tree::{Ending, Occurrence, OccurrenceId, PassEnd, Tree};
