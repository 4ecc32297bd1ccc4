//! Who did what, and what people did for each other: looks at the work, pre-job briefs, roles taken over, second readings.

use serde::{Deserialize, Serialize};

use super::{Answer, Moment, Place};

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

/// Somebody's look at what somebody else did, or was about to do.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Look {
    /// independent verification, re-inspection (one person), sign-off, found otherwise, witnessed or not witnessed.
    pub kind: String,
    /// The step.
    pub step: String,
    /// Which occurrence of it.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// What was to be seen; nothing where the work of a whole step was signed off.
    pub what: Option<String>,
    /// The role whose look it is.
    pub role: String,
    /// Who looked; nobody where it was not witnessed.
    pub who: Option<String>,
    /// Who had done the step; nobody yet where it was witnessed.
    pub performers: Vec<String>,
    /// How it was found, or why nobody came, or why there was nobody else.
    pub reason: Option<String>,
    /// When.
    pub when: Moment,
}

/// A pre-job brief: what everybody heard, and who they were.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Brief {
    /// Who was present.
    pub present: Vec<String>,
    /// Who does what.
    pub roles: Vec<String>,
    /// What can hurt.
    pub hazards: Vec<String>,
    /// Where it stops until it is released.
    pub holds: Vec<String>,
    /// The key that stops the job.
    pub stop_word: String,
    /// When.
    pub when: Moment,
}

/// How somebody came to a role that another person had.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Turnover {
    /// From whom.
    pub from: String,
    /// What the outgoing person said.
    pub note: Option<String>,
    /// When the incoming person had read the brief and accepted; nothing where somebody else took over before that.
    pub accepted: Option<Moment>,
}

/// A reading taken a second time by another person, who had not seen the first.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Second {
    /// The answer.
    pub answer: Answer,
    /// Who read it.
    pub who: String,
    /// Whether the two agree.
    pub agreement: String,
    /// When.
    pub when: Moment,
}
