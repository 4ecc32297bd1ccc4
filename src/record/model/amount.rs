//! Amounts and answers as the record keeps them: the exact number, its unit, the words as typed.

use serde::{Deserialize, Serialize};

/// A number in a unit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Amount {
    /// The exact number.
    pub number: String,
    /// Its unit; empty for a plain number.
    pub unit: String,
    /// As a person reads it, with its unit.
    pub shown: String,
}

/// A quantity that somebody typed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TypedAmount {
    /// The text as typed.
    pub text: String,
    /// What it says.
    pub typed: Amount,
    /// The same in the unit that was asked for, where that is another.
    pub asked: Option<Conversion>,
}

/// A quantity in another unit: the typed number times `factor`, plus `offset`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Conversion {
    /// The result.
    pub amount: Amount,
    /// The exact factor.
    pub factor: String,
    /// The exact number that is added, for temperatures on a scale.
    pub offset: Option<String>,
}

/// What was answered.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// A quantity or a count.
    Quantity(TypedAmount),
    /// One of the choices.
    Choice(String),
    /// Free text.
    Text(String),
    /// A date, as year, month and day.
    Date(String),
    /// Names, in order.
    List(Vec<String>),
    /// A file that is kept with the run.
    File(File),
    /// A named outcome in place of a value.
    Instead(String),
}

/// A file that is kept with the run.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct File {
    /// What it was called where it came from.
    pub name: String,
    /// Its length in bytes.
    pub size: u64,
    /// SHA-256 of its bytes.
    pub sha256: String,
    /// What it is called in the folder `files` of the run.
    pub kept_as: String,
}
