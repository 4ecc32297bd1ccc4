//! What a history says, as data.

use serde::Serialize;

use crate::record::model::{Amount, Limit};

/// What the JSON of a history looks like, as a JSON Schema (draft 2020-12).
pub const HISTORY_SCHEMA: &str = include_str!("history.schema.json");

/// A reading, a computed value or a count on one vehicle over all its runs.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct History {
    /// Its name in the procedures; of what is counted over a whole run, what it is.
    pub name: String,
    /// What the vehicle is.
    pub vehicle: Option<String>,
    /// What identifies it; nothing where its runs have no vehicle sheet.
    pub identification: Option<String>,
    /// The unit in which it is drawn; nothing where it is no number.
    pub unit: Option<String>,
    /// Every time that there was one, the oldest first.
    pub taken: Vec<Taken>,
    /// Runs that cannot be read, and so may hold some.
    pub unread: Vec<Unread>,
}

/// What it was once.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Taken {
    /// reading, computed value, count.
    pub kind: String,
    /// When; where it was entered late, when it was really taken. Of a computed value, when its step was done; of a count,
    /// when the last of what is counted ended, or the run.
    pub at: String,
    /// The odometer at the start of the run.
    pub odometer: Option<Amount>,
    /// The run.
    pub run: String,
    /// Whether that is closed.
    pub closed: bool,
    /// The procedure.
    pub procedure: String,
    /// The step; nothing of what is counted over a whole repeat or run.
    pub step: Option<String>,
    /// In which pass.
    pub pass: Option<String>,
    /// What is read, worked out or counted.
    pub what: String,
    /// as found, as left; nothing where it is neither.
    pub occasion: Option<String>,
    /// As a person reads it.
    pub shown: String,
    /// The number, where it is one.
    pub amount: Option<Amount>,
    /// The same in the unit of the history, where that is another.
    pub in_unit: Option<Amount>,
    /// The lower limit as it stood.
    pub lower: Option<Limit>,
    /// The upper limit.
    pub upper: Option<Limit>,
    /// The verdict in a word.
    pub verdict: Option<String>,
    /// The verdict in full.
    pub words: Option<String>,
    /// Whether it fails, also as a finding or where that is only likely.
    pub fails: bool,
    /// What it was read with.
    pub instrument: Option<String>,
    /// What is written on that.
    pub identity: Option<String>,
    /// How a computed value came about.
    pub trace: Option<String>,
    /// Why it does not count: set aside, in a pass that does not count, taken again.
    pub aside: Option<String>,
    /// The entry that it rests on, the last where there are several.
    pub entry: Option<u64>,
}

/// A run that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Unread {
    /// Its name.
    pub run: String,
    /// Why.
    pub why: String,
}
