//! Events of this family as they stand in the journal.

use serde::{Deserialize, Serialize};

use super::{Unread, WrittenDisposition, WrittenEntry};
use crate::procedure::Name;
use crate::run::{FasteningEvent, Spot};

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenFastening {
    /// The tool is set for a stage.
    Stage { group: String, stage: usize },
    /// A place was done.
    Tightened {
        at: WrittenSpot,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        reached: Option<WrittenEntry>,
    },
    /// A person said whether what was reached is good.
    Judged {
        at: WrittenSpot,
        person: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        wrong: Option<String>,
    },
    /// A correction of what was reached.
    Corrected { at: WrittenSpot, entry: u64, reached: WrittenEntry, reason: String },
    /// A place is done once more.
    Again { at: WrittenSpot, reason: String },
    /// A failing place is gone on with.
    Accepted { at: WrittenSpot, disposition: WrittenDisposition, reason: String },
    /// A place was left out.
    LeftOut { at: WrittenSpot, reason: String },
    /// A place, or all of them, was loosened again.
    Loosened {
        group: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        position: Option<String>,
        reason: String,
    },
}

/// One place in one stage, as written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrittenSpot {
    group: String,
    stage: usize,
    position: String,
}

impl From<Spot> for WrittenSpot {
    fn from(Spot { group, stage, position }: Spot) -> Self {
        Self { group: group.to_string(), stage, position }
    }
}

impl From<WrittenSpot> for Spot {
    fn from(WrittenSpot { group, stage, position }: WrittenSpot) -> Self {
        Self { group: Name::from(group), stage, position }
    }
}

impl From<FasteningEvent> for WrittenFastening {
    fn from(event: FasteningEvent) -> Self {
        match event {
            FasteningEvent::StageSet { group, stage } => Self::Stage { group: group.to_string(), stage },
            FasteningEvent::Tightened { at, reached } => {
                Self::Tightened { at: at.into(), reached: reached.as_ref().map(Into::into) }
            }
            FasteningEvent::Judged { at, person, wrong } => Self::Judged { at: at.into(), person, wrong },
            FasteningEvent::Corrected { at, entry, reached, reason } => {
                Self::Corrected { at: at.into(), entry, reached: (&reached).into(), reason }
            }
            FasteningEvent::Again { at, reason } => Self::Again { at: at.into(), reason },
            FasteningEvent::Accepted { at, disposition, reason } => {
                Self::Accepted { at: at.into(), disposition: disposition.into(), reason }
            }
            FasteningEvent::Skipped { at, reason } => Self::LeftOut { at: at.into(), reason },
            FasteningEvent::Loosened { group, position, reason } => {
                Self::Loosened { group: group.to_string(), position, reason }
            }
        }
    }
}

impl WrittenFastening {
    pub(super) fn read(self) -> Result<FasteningEvent, Unread> {
        Ok(match self {
            Self::Stage { group, stage } => FasteningEvent::StageSet { group: Name::from(group), stage },
            Self::Tightened { at, reached } => FasteningEvent::Tightened {
                at: at.into(),
                reached: reached.map(WrittenEntry::read).transpose()?,
            },
            Self::Judged { at, person, wrong } => FasteningEvent::Judged { at: at.into(), person, wrong },
            Self::Corrected { at, entry, reached, reason } => {
                FasteningEvent::Corrected { at: at.into(), entry, reached: reached.read()?, reason }
            }
            Self::Again { at, reason } => FasteningEvent::Again { at: at.into(), reason },
            Self::Accepted { at, disposition, reason } => {
                FasteningEvent::Accepted { at: at.into(), disposition: disposition.into(), reason }
            }
            Self::LeftOut { at, reason } => FasteningEvent::Skipped { at: at.into(), reason },
            Self::Loosened { group, position, reason } => {
                FasteningEvent::Loosened { group: Name::from(group), position, reason }
            }
        })
    }
}
