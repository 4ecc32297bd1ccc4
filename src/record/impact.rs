//! What an instrument that was off comes to over all runs, as data.

use serde::Serialize;

use super::history::Unread;
use super::rejudged::Rejudged;

/// A reading that was or may have been taken with the instrument; or a run that cannot be read, so that it may hold some.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct TakenWith {
    /// The run.
    pub run: String,
    /// The entry; none of a run that cannot be read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub entry: Option<u64>,
    /// When, to the minute.
    pub at: String,
    /// The step.
    pub step: String,
    /// In which pass.
    pub pass: Option<String>,
    /// What was read.
    pub reading: String,
    /// As a person reads it.
    pub value: String,
    /// Whether it is a correction of what was read.
    pub corrected: bool,
    /// The tool of the procedure that it was taken with.
    pub tool: String,
    /// Whether that tool is what was asked for, whichever instrument stood for it.
    #[serde(skip)]
    pub by_name: bool,
    /// What is written on the instrument; none where nobody said which one it was.
    pub identity: Option<String>,
    /// The last day on which its calibration was good.
    pub due: Option<String>,
    /// Why the run cannot be read.
    pub trouble: Option<String>,
}

/// What an error comes to over all runs.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Impact {
    /// The instrument, as it was asked for.
    pub instrument: String,
    /// The error in words: `read 8 % high`.
    pub error: String,
    /// How what was there comes out of what was read.
    pub way: String,
    /// The first day that is looked at; none where all are.
    pub since: Option<String>,
    /// Each run in which something was or may have been taken with it.
    pub runs: Vec<OfRun>,
    /// Readings with other tools of which nobody named the instrument: they were left as they are.
    pub other_tools: usize,
    /// Runs that cannot be read, and so may hold some.
    pub unread: Vec<Unread>,
}

/// What an error comes to in one run.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct OfRun {
    /// The run.
    pub run: String,
    /// Whether it is closed.
    pub closed: bool,
    /// Entries of which nobody said with which instrument they were taken: they are corrected too.
    pub nobody_said: Vec<u64>,
    /// What another judgement comes to.
    #[serde(flatten)]
    pub again: Rejudged,
}

/// What the JSON of `impact` looks like, as a JSON Schema (draft 2020-12).
pub const IMPACT_SCHEMA: &str = include_str!("impact.schema.json");
