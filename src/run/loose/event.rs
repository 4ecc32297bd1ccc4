//! What can happen and be answered about loose ends.

use crate::procedure::Name;

/// Which loose end.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum EndId {
    /// One that an earlier run of the job left, by its place in what was handed on.
    HandedOn(usize),
    /// One of this run: of a remark by its entry, of a step by the first entry at it and the end's name.
    Own { entry: u64, name: Option<Name> },
}

/// What can happen.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum LooseEvent {
    /// Something is left to be done that the procedure does not speak of.
    Noted { what: String },
    /// It was done: this is how.
    Settled { end: EndId, how: String },
    /// It leaves the job undone: somebody sees to it, for this reason.
    CarriedOut { end: EndId, by: String, why: String },
}

/// What is answered, at any time.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum LooseAnswer {
    /// Something is left to be done.
    Note { what: String },
    /// It was done: this is how.
    Settle { end: EndId, how: String },
    /// It leaves the job undone: this person sees to it, for this reason.
    CarryOut { end: EndId, by: String, why: String },
}
