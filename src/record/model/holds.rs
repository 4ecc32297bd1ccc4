//! Hold points in the record: every verification, who released it, and why it ended.

use serde::{Deserialize, Serialize};

use super::{Moment, Place};

/// A hold point at one occurrence of its step, with every verification of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hold {
    /// Its name in the procedure.
    pub name: String,
    /// What it guards.
    pub what: String,
    /// Its step.
    pub step: String,
    /// Which occurrence of its step it is.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// The protection that it puts in force.
    pub protection: Option<String>,
    /// Every verification, in order; none where its step did not apply.
    pub verifications: Vec<Verification>,
}

/// One verification of a hold point.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Verification {
    /// Why it was verified again; nothing for the first time.
    pub again_because: Option<String>,
    /// Statements found true.
    pub confirmed: Vec<Statement>,
    /// Statements found untrue, also those put right since.
    pub untrue: Vec<Untrue>,
    /// Its readings.
    pub readings: Vec<HoldReading>,
    /// Its groups of fasteners; their places stand with the group.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fasteners: Vec<HoldFasteners>,
    /// Who released it.
    pub released: Vec<Release>,
    /// Why it no longer stands, or was broken off.
    pub ended: Option<Ended>,
}

/// A statement found true.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Statement {
    /// What it says.
    pub statement: String,
    /// When.
    pub when: Moment,
}

/// A statement found untrue.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Untrue {
    /// What it says.
    pub statement: String,
    /// How it was instead.
    pub instead: String,
    /// When.
    pub when: Moment,
}

/// A reading taken to verify a hold point.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HoldReading {
    /// What was read.
    pub what: String,
    /// What was answered.
    pub answer: String,
    /// When: the reading of that entry.
    pub when: Moment,
}

/// A group of fasteners that was worked at to verify a hold point.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HoldFasteners {
    /// What they are.
    pub what: String,
    /// From when.
    pub from: Moment,
    /// Till when.
    pub to: Moment,
}

/// A release of a hold point.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Release {
    /// In which role.
    pub role: String,
    /// Who.
    pub name: String,
    /// When.
    pub when: Moment,
}

/// Why a verification came to its end.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ended {
    /// Why.
    pub why: String,
    /// When that was known.
    pub when: Moment,
}

/// A hazard that was read and understood before a step.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Acknowledgement {
    /// DANGER or WARNING.
    pub signal: String,
    /// What the hazard is.
    pub hazard: String,
    /// The step.
    pub step: String,
    /// Which occurrence of it.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// When.
    pub when: Moment,
}
