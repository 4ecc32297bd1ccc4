//! Steps in the record, and what became of each.

use serde::{Deserialize, Serialize};

use super::{Late, Moment, Place};

/// One occurrence of a step, and what became of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Its number.
    pub number: String,
    /// Which occurrence of it this is.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// Its section; empty before the first heading.
    pub section: String,
    /// The linked procedure that it comes from, by its address; none where it is the procedure's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// What it says, with the readings filled in.
    pub text: String,
    /// What became of it: done, not applicable, not finished; in a run that is not closed also any other state.
    pub state: String,
    /// Why it does not apply, or was not finished.
    pub why: Option<String>,
    /// Whose step it is; nobody where a condition took it out.
    pub who: Vec<String>,
    /// What was said of it, in order.
    pub changes: Vec<Change>,
}

/// Something that was said of a step.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Change {
    /// What it made of it: done, deferred, not applicable, left as it was done, set aside.
    pub to: String,
    /// Why, where a person said why.
    pub reason: Option<String>,
    /// When it was entered.
    pub when: Moment,
    /// When it was really done, where it was entered late.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub late: Option<Late>,
}
