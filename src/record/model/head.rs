//! The record as a whole: what it holds and in which order, what the work was done to and who did it.

use serde::{Deserialize, Serialize};

use super::{
    Acknowledgement, Answer, Brief, ClockJump, FastenerGroup, Hold, LimitInForce, Log, Look, NotFinished,
    Note, Outcome, Pair, Place, Reading, Repeat, Sitting, Step, Turnover, TypedAmount, Value, Wait,
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
    /// How it came out, in words.
    pub result: String,
    /// What was not as it should be, counted.
    pub outcome: Outcome,
    /// How it stands, where it is not closed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub not_finished: Option<NotFinished>,
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

/// When an entry was made, and its number in the journal.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Moment {
    /// The number of the entry, from 1.
    pub entry: u64,
    /// RFC 3339, with offset.
    pub at: String,
}

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

/// Somebody and his part in the job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Person {
    /// The role.
    pub role: String,
    /// What this role does.
    pub what: String,
    /// The name.
    pub name: String,
    /// When it was entered.
    pub when: Moment,
    /// What the name was said to be before it was corrected, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub before: Vec<NameBefore>,
    /// From whom the role was taken over, where it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub turnover: Option<Turnover>,
}

/// A name before it was corrected.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NameBefore {
    /// The name that was entered.
    pub name: String,
    /// What was wrong with it.
    pub reason: String,
    /// When it was corrected.
    pub when: Moment,
}

/// The vehicle.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vehicle {
    /// What it is, from its sheet.
    pub description: Option<String>,
    /// Its number, from its sheet.
    pub identification: Option<String>,
    /// The odometer at the start.
    pub odometer: Option<TypedAmount>,
    /// What it was said to be before it was corrected, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub odometer_before: Vec<Replaced>,
    /// Its sheet, where there is one.
    pub sheet: Option<Sheet>,
    /// The values of this vehicle that the procedure goes by.
    pub values: Vec<VehicleValue>,
}

/// A vehicle sheet, word for word.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sheet {
    /// SHA-256 of its text.
    pub sha256: String,
    /// Its text.
    pub text: String,
}

/// A value of this vehicle, and where it comes from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct VehicleValue {
    /// Its name in the procedure.
    pub name: String,
    /// What it is.
    pub what: String,
    /// The value.
    pub value: Answer,
    /// The document that gives it.
    pub source: String,
    /// When it was entered; nothing where the sheet gives it.
    pub entered: Option<Moment>,
    /// What it was said to be before it was corrected, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub before: Vec<Replaced>,
}

/// What stood somewhere before it was corrected.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Replaced {
    /// What it was said to be.
    pub value: Answer,
    /// The document that was said to give it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source: Option<String>,
    /// What was wrong with it.
    pub reason: String,
    /// When it was corrected.
    pub when: Moment,
}

/// The procedure, word for word.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Procedure {
    /// What it is called by others.
    pub id: String,
    /// The title.
    pub title: String,
    /// The revision.
    pub revision: String,
    /// The date of the revision.
    pub date: String,
    /// Who wrote it.
    pub author: String,
    /// Which vehicles it is for.
    pub scope: String,
    /// How strictly it is followed.
    pub level_of_use: String,
    /// SHA-256 of its text.
    pub sha256: String,
    /// Its text.
    pub text: String,
    /// The procedures that its steps link to, word for word.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub linked: Vec<LinkedProcedure>,
}

/// A procedure that steps of another link to, word for word.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LinkedProcedure {
    /// Where it was found, seen from the folder of the first procedure.
    pub address: String,
    /// The title.
    pub title: String,
    /// The revision.
    pub revision: String,
    /// The date of the revision.
    pub date: String,
    /// Who wrote it.
    pub author: String,
    /// SHA-256 of its text.
    pub sha256: String,
    /// Its text.
    pub text: String,
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
