//! Times in the record: waits, late entries, jumps of the clock, notes and stretches of work.

use serde::{Deserialize, Serialize};

use super::{Moment, Place};

/// A wait.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wait {
    /// Its name in the procedure.
    pub name: String,
    /// What was waited for.
    pub what: String,
    /// The shortest time.
    pub at_least: Option<String>,
    /// The longest time.
    pub at_most: Option<String>,
    /// Each time that its clock was started; none where its step was not done.
    pub starts: Vec<WaitStart>,
}

/// A wait from its start to its end.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WaitStart {
    /// Which occurrence of the step that starts it.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// When its clock was started.
    pub began: Moment,
    /// When its step was really done, where that was entered late: the longest time counts from then.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stated: Option<String>,
    /// When it was over, at the earliest.
    pub not_before: Option<String>,
    /// When it was due, at the latest.
    pub due: Option<String>,
    /// When the first step that needed it was complete.
    pub used: Option<Moment>,
    /// When and why it was gone on with although it was late.
    pub late: Vec<LateStart>,
    /// When it was missed, and the procedure's own path for that was taken.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub missed: Option<Moment>,
}

/// When something was really done, and why it was entered late.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Late {
    /// When it was done, by a person's word: RFC 3339, with offset.
    pub done: String,
    /// Why it was entered late.
    pub reason: String,
}

/// An entry before which the clock did not simply go on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClockJump {
    /// The entry.
    pub when: Moment,
    /// By how many seconds it was set back, to the millisecond; nothing where only the offset is another.
    pub back_seconds: Option<String>,
    /// What there is to be known of it.
    pub words: String,
}

/// A step that came too late after its wait.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LateStart {
    /// The step.
    pub step: String,
    /// Why.
    pub reason: String,
    /// When.
    pub when: Moment,
}

/// A remark, or something that was disturbed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Note {
    /// note or disturbed.
    pub kind: String,
    /// What was said.
    pub text: String,
    /// When.
    pub when: Moment,
}

/// A stretch of work.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sitting {
    /// When it began.
    pub began: Moment,
    /// When the resume brief was read; nothing in the first.
    pub brief_read: Option<Moment>,
    /// How it ended.
    pub ended: SittingEnd,
}

/// How a stretch of work ended.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SittingEnd {
    /// suspended, stopped, broken off (no word was said), not ended, or closed.
    pub how: String,
    /// Why.
    pub reason: Option<String>,
    /// The state that things were left in.
    pub left: Option<String>,
    /// What comes first next time.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub first: Option<String>,
    /// When; of one that was broken off or not ended, its last entry.
    pub when: Moment,
}
