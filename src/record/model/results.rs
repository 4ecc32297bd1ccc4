use serde::{Deserialize, Serialize};

use super::{Amount, Answer, Late, Moment, Second};

/// A reading, with every attempt at it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// Its name in the procedure.
    pub name: String,
    /// What is read.
    pub what: String,
    /// The step that it is taken at.
    pub step: String,
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
    /// In which pass, where the steps are done more than once.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pass: Option<String>,
    /// What was found.
    pub as_found: PairEnd,
    /// What was left; nothing where nothing was read afterwards.
    pub as_left: Option<PairEnd>,
}

/// One end of a pair.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PairEnd {
    /// Its name in the procedure.
    pub name: String,
    /// As a person reads it.
    pub shown: String,
    /// What was thought of it, in a word.
    pub verdict: String,
}

/// One entry of a reading.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Attempt {
    /// The answer.
    pub answer: Answer,
    /// Why the entry before it was wrong; nothing where this was measured.
    pub correction: Option<String>,
    /// In which pass it was taken, where the step is done more than once.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pass: Option<String>,
    /// The instrument, where it is calibrated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instrument: Option<UsedInstrument>,
    /// When it was entered.
    pub when: Moment,
    /// When it was really taken, where it was entered late.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub late: Option<Late>,
    /// Whose step it is.
    pub who: Vec<String>,
    /// The second reading, by another person who had not seen this one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub second: Option<Second>,
    /// What was to be thought of it then, and again whenever its limits moved.
    pub judged: Vec<Judged>,
    /// Why it was taken again.
    pub set_aside: Option<SetAside>,
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

/// What was to be thought of a result at a moment, by the limits in force then.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Judged {
    /// When.
    pub when: Moment,
    /// In a word: pass, fail, information only, nominal, not judged.
    pub verdict: String,
    /// In full, with the distance from the limit.
    pub words: String,
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

/// A computed value.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Value {
    /// Its name in the procedure.
    pub name: String,
    /// What it is.
    pub what: String,
    /// The step that it is judged at.
    pub step: String,
    /// The linked procedure that it comes from, by its address; none where it is the procedure's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Its formula.
    pub formula: String,
    /// Where its limits come from.
    pub source: Option<String>,
    /// A result for each state of its inputs.
    pub results: Vec<ValueResult>,
}

/// A computed value at a moment.
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
}
