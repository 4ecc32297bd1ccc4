//! How the run came out, counted, and how it stands where it is not closed.

use serde::{Deserialize, Serialize};

use super::Moment;

/// What was not as it should be, counted; also what an authored path took up, and what was put right since.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Outcome {
    /// Readings that failed.
    pub readings_failed: usize,
    /// Of these, those that were taken again and passed.
    pub taken_again: usize,
    /// Readings as found before an adjustment that were outside their limits.
    pub as_found_outside: usize,
    /// Readings beyond what they must never pass, also those taken again since.
    pub ceilings_exceeded: usize,
    /// Computed values that failed.
    pub values_failed: usize,
    /// Values reached at fasteners that failed, also those done again since.
    pub fasteners_failed: usize,
    /// Passes that do not count.
    pub passes_invalid: usize,
    /// Repeats whose passes were in vain.
    pub repeats_exhausted: usize,
    /// Repeats that were given up.
    pub repeats_given_up: usize,
    /// Limits in force that were broken.
    pub limits_broken: usize,
}

/// How a run stands that is not closed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NotFinished {
    /// stopped, suspended, or not closed where no word was said.
    pub how: String,
    /// When: the last entry, where no word was said.
    pub when: Moment,
    /// Why.
    pub reason: Option<String>,
    /// The state that things were left in.
    pub left: Option<String>,
    /// What comes first next time.
    pub first: Option<String>,
    /// How many steps are open.
    pub steps_open: usize,
    /// Everything that is open.
    pub open: Vec<String>,
    /// The protections in force.
    pub protections: Vec<Standing>,
}

/// A protection in force.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Standing {
    /// What protects.
    pub what: String,
    /// The hold point that put it in force.
    pub hold: String,
    /// Since when.
    pub since: Moment,
    /// Who released it.
    pub by: String,
    /// Why it must be verified again before work goes on under it.
    pub lapsed: Option<String>,
}

/// Something that was left to be done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LooseEnd {
    /// What.
    pub what: String,
    /// Where it was left: a step with its pass, a remark, an earlier run of the job.
    pub left_at: String,
    /// When; nothing of one that an earlier run left.
    pub when: Option<Moment>,
    /// What became of it, in words; nothing while it is open.
    pub became: Option<String>,
    /// When.
    pub became_when: Option<Moment>,
}

/// A protection that an earlier run of the job had left in force.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FoundInForce {
    /// What protects.
    pub what: String,
    /// The run in which it was looked at last.
    pub run: String,
    /// The entry there, and its time.
    pub when: Moment,
    /// Who released it there.
    pub by: String,
}
