//! Where and when: in which pass something stands, whether it counts, when it was entered.

use std::fmt;

use serde::{Deserialize, Serialize};

/// Where in the work something stands that occurs more than once.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// Which turn of each part around the step it is, from the section down to the step itself; what is left out is the
    /// first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub turns: Vec<u32>,
    /// In which passes, in words: `pass 2 of 3 (left)`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pass: Option<String>,
    /// That it does not count, and why.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub aside: Option<Aside>,
}

impl Place {
    /// Whether there is nothing to say: it occurs once, and counts.
    pub fn is_plain(&self) -> bool {
        *self == Self::default()
    }
}

/// That something does not count.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Aside {
    /// set aside, or does not count.
    pub how: String,
    /// Why.
    pub reason: String,
}

/// `set aside: the hose had slipped off`.
impl fmt::Display for Aside {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}: {}", self.how, self.reason)
    }
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
