//! Readings and computed values in the record, with every attempt and its verdict.

use serde::{Deserialize, Serialize};

use super::{Amount, Answer, Late, Moment, Place, Second};

/// A reading at one occurrence of its step, with every attempt at it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// Its name in the procedure.
    pub name: String,
    /// What is read.
    pub what: String,
    /// The step that it is taken at.
    pub step: String,
    /// Which occurrence of its step it is.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// The linked procedure that it comes from, by its address; none where it is the procedure's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// What it is taken with.
    pub instrument: Option<Instrument>,
    /// Where its limits come from.
    pub source: Option<String>,
    /// Every attempt, in order; none where its step was not done.
    pub attempts: Vec<Attempt>,
}

/// What a reading is taken with.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Instrument {
    /// What it is.
    pub what: String,
    /// Plus or minus this much.
    pub accuracy: Option<Amount>,
}

/// The instrument of one entry, as it stood then.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UsedInstrument {
    /// What is written on it.
    pub identity: String,
    /// The last day on which its calibration was good.
    pub due: String,
    /// The deviation under which it was used overdue.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub overdue: Option<usize>,
}

/// A reading before an adjustment, and the same after it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pair {
    /// What is read.
    pub what: String,
    /// Of which item, or in which pass, where the steps are done more than once.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<String>,
    /// What was found; nothing where nothing was read before.
    pub as_found: Option<PairEnd>,
    /// What was left; nothing where nothing was read afterwards.
    pub as_left: Option<PairEnd>,
}

/// One end of a pair.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PairEnd {
    /// Its name in the procedure.
    pub name: String,
    /// Where it was read.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// As a person reads it.
    pub shown: String,
    /// What is thought of it, in a word.
    pub verdict: String,
}

/// One attempt at a reading, with everything that was said of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Attempt {
    /// The answer as it stands.
    pub answer: Answer,
    /// What it was said to be before it was corrected, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub corrected: Vec<Correction>,
    /// The instrument, where it is calibrated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instrument: Option<UsedInstrument>,
    /// When it was first entered.
    pub when: Moment,
    /// When it was really taken, where it was entered late.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub late: Option<Late>,
    /// Whose step it is.
    pub who: Vec<String>,
    /// Second readings, by another person who had not seen this one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub second: Vec<Second>,
    /// What is to be thought of it.
    pub judged: Option<Judged>,
    /// The deviation under which it was gone on with, from 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub deviation: Option<usize>,
    /// Why it was taken again.
    pub set_aside: Option<SetAside>,
}

/// What an entry said before it was corrected.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Correction {
    /// What it said before.
    pub before: Answer,
    /// What was wrong with that.
    pub reason: String,
    /// When it was corrected.
    pub when: Moment,
}

/// Why a reading was taken again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SetAside {
    /// What was done about it.
    pub reason: String,
    /// When.
    pub when: Moment,
}

/// What is to be thought of a result, by the limits as they stand.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Judged {
    /// In a word: pass, fail, information only, nominal, not judged.
    pub verdict: String,
    /// In full, with the distance from the limit.
    pub words: String,
    /// How far it is from the limit that decides.
    pub distance: Option<Distance>,
    /// The lower limit in force.
    pub lower: Option<Limit>,
    /// The upper limit in force.
    pub upper: Option<Limit>,
    /// The nominal value shown beside it.
    pub nominal: Option<Amount>,
    /// What was accepted, for choices and dates.
    pub accepted: Option<String>,
    /// The decision rule; nothing where nothing was judged.
    pub decision_rule: Option<String>,
    /// What the instrument's accuracy means for it, where that is known.
    pub certainty: Option<Certainty>,
}

/// How far a result is from the limit that decides: the one it breaks, else the nearer one.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Distance {
    /// lower limit or upper limit.
    pub limit: String,
    /// below, on or above it.
    pub side: String,
    /// By how much; `shown` to three digits.
    pub amount: Amount,
}

/// What the accuracy of an instrument means for a verdict.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Certainty {
    /// Plus or minus this much.
    pub accuracy: Amount,
    /// The expanded uncertainty, k = 2.
    pub expanded: Amount,
    /// The probability that the limits are kept, from 0 to 1, to four places.
    pub conformity: String,
    /// The same in words.
    pub words: String,
}

/// A limit in force.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Limit {
    /// The limit.
    pub amount: Amount,
    /// Whether the limit itself is still good.
    pub inclusive: bool,
    /// The formula that gave it.
    pub formula: String,
}

/// A computed value at one occurrence of its step.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Value {
    /// Its name in the procedure.
    pub name: String,
    /// What it is.
    pub what: String,
    /// The step that it is judged at.
    pub step: String,
    /// Which occurrence of its step it is.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// The linked procedure that it comes from, by its address; none where it is the procedure's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Its formula.
    pub formula: String,
    /// Where its limits come from.
    pub source: Option<String>,
    /// What it comes to; nothing where its step was not done.
    pub result: Option<ValueResult>,
}

/// What a computed value comes to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ValueResult {
    /// The result; nothing where it could not be computed.
    pub result: Option<Amount>,
    /// How it came about.
    pub trace: String,
    /// What was assumed.
    pub assumptions: Vec<String>,
    /// What is to be thought of it.
    pub judged: Judged,
    /// The deviation under which it was gone on with, from 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub deviation: Option<usize>,
}
