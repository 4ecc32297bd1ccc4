//! Repeats in the record: their passes, and which of them count.

use serde::{Deserialize, Serialize};

use super::{Moment, Place};

/// A repeat, as often as it was begun.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Repeat {
    /// Its name in the procedure.
    pub name: String,
    /// What is repeated.
    pub what: String,
    /// Where it stands, where it stands in another repeat.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// complete, in vain, given up, or not complete.
    pub verdict: String,
    /// Its passes, in order.
    pub passes: Vec<Pass>,
}

/// A pass of a repeat.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pass {
    /// What it is called: `pass 2 of 3 (left)`.
    pub pass: String,
    /// counts, does not count, given up, set aside, or not ended.
    pub end: String,
    /// Why.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
    /// Whether it counts in the end: a later pass may have begun the count anew.
    pub counts: bool,
    /// When it ended.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ended: Option<Moment>,
}
