//! Limits in force in the record, and the readings that they watched.

use serde::{Deserialize, Serialize};

use super::{Answer, Moment, Place};

/// A limit that stayed in force over several steps.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LimitInForce {
    /// Its name in the procedure.
    pub name: String,
    /// What was watched.
    pub what: String,
    /// Since when it was in force; never where its step was not done.
    pub since: Option<Moment>,
    /// Until when; nothing while it still is.
    pub until: Option<Moment>,
    /// kept, broken, or nothing watched.
    pub verdict: String,
    /// The readings that it watched.
    pub readings: Vec<WatchedReading>,
}

/// A reading under a limit in force.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WatchedReading {
    /// Its name in the procedure.
    pub name: String,
    /// Where it was taken.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// The answer.
    pub answer: Answer,
    /// When.
    pub when: Moment,
    /// How it broke the limit; nothing where it kept it.
    pub broke: Option<String>,
}
