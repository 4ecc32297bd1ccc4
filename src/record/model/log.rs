//! Logs in the record: every row, whether it came in time, and what was read in it.

use serde::{Deserialize, Serialize};

use super::{Answer, Moment};

/// A repeat that makes a row every so often.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Log {
    /// Its name in the procedure.
    pub name: String,
    /// What is logged.
    pub what: String,
    /// The time from one row to the next.
    pub every: String,
    /// How much later than that is still in time.
    pub late: Option<String>,
    /// Every row, in order.
    pub rows: Vec<Row>,
}

/// A row of a log.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// When it was due; nothing for the first, which sets the schedule.
    pub due: Option<String>,
    /// When the first of its readings was taken, by a person's word where that was entered late.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub came: Option<Moment>,
    /// When it was complete, or given up.
    pub when: Moment,
    /// That it came too late, and by how much.
    pub late: Option<String>,
    /// counts, or why it does not.
    pub end: String,
    /// Whether it counts in the end: a later row may have begun the count anew.
    pub counts: bool,
    /// What was read in it.
    pub readings: Vec<RowReading>,
}

/// A reading in a row.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RowReading {
    /// Its name in the procedure.
    pub name: String,
    /// The answer.
    pub answer: Answer,
}
