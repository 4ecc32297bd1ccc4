//! What was said of loose ends.

use crate::run::loose::event::EndId;
use crate::run::stamp::Stamp;

/// What was said of loose ends.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Loose {
    /// Those that persons noted.
    pub noted: Vec<(Stamp, String)>,
    /// What became of each, in order.
    pub became: Vec<(EndId, Became, Stamp)>,
}

/// What became of a loose end.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Became {
    /// It was done: this is how.
    Settled { how: String },
    /// It left the job undone: this person sees to it, for this reason.
    CarriedOut { by: String, why: String },
}
