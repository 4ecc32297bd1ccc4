use serde::{Deserialize, Serialize};

use super::{Late, Moment};

/// A step, and what became of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Its number.
    pub number: String,
    /// Its section; empty before the first heading.
    pub section: String,
    /// The linked procedure that it comes from, by its address; none where it is the procedure's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// What it says, with the readings filled in.
    pub text: String,
    /// What became of it: done, not applicable.
    pub state: String,
    /// Why it does not apply.
    pub why: Option<String>,
    /// Whose step it is; nobody where a condition took it out.
    pub who: Vec<String>,
    /// What happened to it, in order; the last entry made it what it is.
    pub turns: Vec<Turn>,
}

/// A change in the state of a step.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Turn {
    /// To what: done, reopened, deferred, not applicable, does not apply any more; or that its passes became more or
    /// fewer.
    pub to: String,
    /// Why, where a person said why.
    pub reason: Option<String>,
    /// When it was entered.
    pub when: Moment,
    /// When it was really done, where it was entered late.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub late: Option<Late>,
}
