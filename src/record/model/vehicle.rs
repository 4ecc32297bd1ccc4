//! What the work was done to.

use serde::{Deserialize, Serialize};

use super::{Answer, Moment, TypedAmount};

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
