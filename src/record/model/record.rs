//! The record as a whole: what it holds and in which order.

use serde::{Deserialize, Serialize};

use super::{
    Acknowledgement, Brief, ClockJump, Deviations, Due, FastenerGroup, FoundInForce, Hold, LimitInForce, Log,
    Look, LooseEnd, Moment, NotFinished, Note, Outcome, Pair, Person, Procedure, Reading, Repeat, Sitting,
    Standing, Step, Value, Vehicle, Wait,
};

/// What is left of a run. Exceptions stand first.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// The version of this format.
    pub format: u32,
    /// The name of the run.
    pub run: String,
    /// The version of bayhand that began the run.
    pub engine: String,
    /// The file that answered in a person's place: then the times are the file's.
    pub answered_from: Option<String>,
    /// That it is a copy in which something is hidden.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub redacted: Option<Redacted>,
    /// How it came out, in words.
    pub result: String,
    /// What was not as it should be, counted.
    pub outcome: Outcome,
    /// How it stands, where it is not closed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub not_finished: Option<NotFinished>,
    /// What is left to be done, and what became of it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub loose_ends: Vec<LooseEnd>,
    /// The protections that earlier runs of the job had left in force when it began.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub found_in_force: Vec<FoundInForce>,
    /// The protections that the closed run left in force for the job to go on under.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub left_in_force: Vec<Standing>,
    /// Every departure from the procedure.
    pub deviations: Deviations,
    /// Who did what.
    pub people: Vec<Person>,
    /// What it was done to.
    pub vehicle: Vehicle,
    /// What it was done by.
    pub procedure: Procedure,
    /// When the run began.
    pub began: Moment,
    /// When it was closed; nothing where it was not.
    pub closed: Option<Moment>,
    /// Every reading, with every attempt.
    pub readings: Vec<Reading>,
    /// What was found before adjustments, and what was left.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pairs: Vec<Pair>,
    /// Every computed value.
    pub values: Vec<Value>,
    /// Every group of fasteners, place by place and stage by stage.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fasteners: Vec<FastenerGroup>,
    /// Every limit that stayed in force over several steps.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub limits_in_force: Vec<LimitInForce>,
    /// What falls due after the run.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub dues: Vec<Due>,
    /// Every hold point, with every verification.
    pub holds: Vec<Hold>,
    /// Every pre-job brief.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub briefs: Vec<Brief>,
    /// Who looked at whose work: verifications, re-inspections, sign-offs, witness points.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub looks: Vec<Look>,
    /// Every repeat, pass by pass.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub repeats: Vec<Repeat>,
    /// Every step, each occurrence of it by itself.
    pub steps: Vec<Step>,
    /// Hazards that were acknowledged.
    pub hazards: Vec<Acknowledgement>,
    /// Every wait.
    pub waits: Vec<Wait>,
    /// Every log, row by row.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub logs: Vec<Log>,
    /// Entries before which the clock did not simply go on.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub clock: Vec<ClockJump>,
    /// Remarks and disturbances.
    pub notes: Vec<Note>,
    /// From when to when the work went on.
    pub sittings: Vec<Sitting>,
    /// The lines of the journal, without their newlines.
    pub journal: Vec<String>,
    /// What shows that nothing above was changed.
    pub seal: Seal,
}

/// What is hidden in a copy of a record.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Redacted {
    /// What: names, vehicle, other words.
    pub hidden: Vec<String>,
    /// The seal of the record that it is a copy of.
    pub of: String,
}

/// What shows that a record was not changed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Seal {
    /// What was hashed and how.
    pub method: String,
    /// The hash, in hexadecimal.
    pub sha256: String,
}
