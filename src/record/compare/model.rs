//! What a comparison of two records says, as data.

use serde::Serialize;

use crate::record::model::Amount;

/// What the JSON of a comparison looks like, as a JSON Schema (draft 2020-12).
pub const COMPARE_SCHEMA: &str = include_str!("compare.schema.json");

/// Two records of one procedure, side by side.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Comparison {
    /// The procedure's name.
    pub procedure: String,
    /// Its title, as the second record has it.
    pub title: String,
    /// The first record.
    pub before: Side,
    /// The second.
    pub after: Side,
    /// Whether it is the same vehicle; nothing where one of them does not say.
    pub same_vehicle: Option<bool>,
    /// Where the texts of the procedure differ; none where they are the same.
    pub texts: Vec<TextChange>,
    /// Values of the vehicle that differ.
    pub vehicle_values: Vec<Change>,
    /// Every reading that stands in both, also those that are the same.
    pub readings: Vec<Change>,
    /// Every computed value that stands in both.
    pub values: Vec<Change>,
    /// Every fastener that stands in both.
    pub fasteners: Vec<Change>,
    /// Steps that became something else; none are told where the texts differ.
    pub steps: Vec<Change>,
    /// Counts and times, also those that are the same.
    pub counts: Vec<Count>,
    /// What stands in the first only.
    pub only_before: Vec<String>,
    /// What stands in the second only.
    pub only_after: Vec<String>,
}

/// Which record it is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Side {
    /// The run.
    pub run: String,
    /// The revision of the procedure.
    pub revision: String,
    /// When it began.
    pub began: String,
    /// When it was closed; nothing where it was not.
    pub closed: Option<String>,
    /// The vehicle.
    pub vehicle: Option<String>,
    /// What identifies it.
    pub identification: Option<String>,
    /// The odometer.
    pub odometer: Option<Amount>,
    /// How it came out.
    pub result: String,
    /// That something is hidden in it: what.
    pub hidden: Vec<String>,
    /// The file that answered in a person's place.
    pub answered_from: Option<String>,
    /// Its seal.
    pub seal: String,
}

/// Lines that stand in one of two texts only.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TextChange {
    /// Which text: the procedure, or one that it links to.
    pub text: String,
    /// Lines of the first only.
    pub only_before: Vec<String>,
    /// Lines of the second only.
    pub only_after: Vec<String>,
}

/// Something before and after.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Change {
    /// Its name in the procedure; of a step its number.
    pub name: String,
    /// What it is.
    pub what: String,
    /// Of which item or place, where there are several.
    pub of: Option<String>,
    /// Before.
    pub before: End,
    /// After.
    pub after: End,
    /// Whether both are the same, verdict included.
    pub is_same: bool,
    /// The second less the first, in the unit of the second.
    pub change: Option<Amount>,
    /// Whether the change means anything.
    pub meaning: Meaning,
}

/// One end of a change.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct End {
    /// The step.
    pub step: String,
    /// In which pass.
    pub pass: Option<String>,
    /// As a person reads it.
    pub shown: String,
    /// The number, where it is one.
    pub amount: Option<Amount>,
    /// The verdict in a word.
    pub verdict: Option<String>,
    /// What it was read with.
    pub instrument: Option<String>,
    /// What is written on that.
    pub identity: Option<String>,
    /// How good it is, as stated: plus or minus this much, or this share.
    pub accuracy: Option<Amount>,
    /// The expanded uncertainty from that, k = 2.
    pub expanded: Option<Amount>,
    /// The entry.
    pub entry: Option<u64>,
}

/// What a change means, given the instruments.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(tag = "word", rename_all = "snake_case")]
pub enum Meaning {
    /// There is none, or it is nothing that an instrument measures.
    None,
    /// No accuracy was stated for one of them: nothing can be said.
    NoAccuracyStated,
    /// They are of different kinds.
    NotComparable,
    /// More than the instruments can explain.
    MoreThanTheInstruments {
        /// The `E_n` number, above 1.
        en: String,
    },
    /// It may be the instruments alone.
    MaybeTheInstruments {
        /// The `E_n` number, at most 1.
        en: String,
    },
}

impl Meaning {
    /// In words; nothing where there is nothing to say.
    pub fn words(&self) -> String {
        match self {
            Self::None => String::new(),
            Self::NoAccuracyStated => "no accuracy stated".to_owned(),
            Self::NotComparable => "of another kind: no difference".to_owned(),
            Self::MoreThanTheInstruments { en } => {
                format!("more than the instruments can explain (E_n {en})")
            }
            Self::MaybeTheInstruments { en } => format!("may be the instruments alone (E_n {en})"),
        }
    }
}

/// A count or a time, before and after.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Count {
    /// Of what.
    pub what: String,
    /// Before.
    pub before: String,
    /// After.
    pub after: String,
}

/// What stands in one of them only.
#[derive(Debug, Default)]
pub(super) struct Only {
    pub(super) before: Vec<String>,
    pub(super) after: Vec<String>,
}
