//! Departures from the procedure.

use serde::{Deserialize, Serialize};

use super::{Moment, Place};

/// Departures from the procedure.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Deviations {
    /// How many, also when there are none.
    pub count: usize,
    /// All of them, in order.
    pub all: Vec<Deviation>,
}

/// A departure from the procedure, and what was decided.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Deviation {
    /// From 1.
    pub number: usize,
    /// The step.
    pub step: String,
    /// Which occurrence of it.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// From what.
    pub departs: String,
    /// Why.
    pub reason: String,
    /// When.
    pub when: Moment,
    /// Whose step it is.
    pub who: Vec<String>,
    /// What was decided: rework, repair, use as is, reject; nothing where that is still open.
    pub disposition: Option<String>,
    /// Why that.
    pub justification: Option<String>,
    /// When that was decided.
    pub decided: Option<Moment>,
}
