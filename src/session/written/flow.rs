//! Events on the way through the steps, as they stand in the journal.

use serde::{Deserialize, Serialize};

use super::{Unread, WrittenDisposition};
use crate::procedure::{Name, SectionId, StepId};
use crate::run::{FlowEvent, PassEnd};

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenFlow {
    /// A section was called complete.
    SectionComplete { section: usize },
    /// The work of a section is done.
    WorkDone { section: usize },
    /// A pass that counts.
    Pass {
        repeat: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        item: Option<String>,
    },
    /// A pass that does not count.
    InvalidPass {
        repeat: String,
        reason: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        item: Option<String>,
    },
    /// A pass that counted does not, as it turned out.
    PassTakenBack { repeat: String, reason: String },
    /// A repeat was given up.
    GivenUp {
        repeat: String,
        disposition: WrittenDisposition,
        reason: String,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        item: Option<String>,
    },
    /// Another pass than are allowed.
    Extended { repeat: String, reason: String },
    /// A section was begun anew.
    Restarted { section: usize, reason: String },
    /// A way was chosen.
    Chosen { step: usize },
    /// A wait was missed.
    Missed { step: usize, wait: String },
    /// A row of a log was begun before it is due.
    Early { repeat: String },
    /// What was done is left as it is, although it no longer agrees.
    Settled { step: usize, disposition: WrittenDisposition, reason: String },
}

impl From<FlowEvent> for WrittenFlow {
    fn from(event: FlowEvent) -> Self {
        match event {
            FlowEvent::SectionCompleted(section) => Self::SectionComplete { section: section.0 },
            FlowEvent::WorkDone(section) => Self::WorkDone { section: section.0 },
            FlowEvent::PassEnded { repeat, end: PassEnd::Counts, item } => {
                Self::Pass { repeat: repeat.to_string(), item }
            }
            FlowEvent::PassEnded {
                repeat,
                end: PassEnd::Invalid(reason) | PassEnd::GivenUp(reason) | PassEnd::SetAside(reason),
                item,
            } => Self::InvalidPass { repeat: repeat.to_string(), reason, item },
            FlowEvent::PassTakenBack { repeat, reason } => {
                Self::PassTakenBack { repeat: repeat.to_string(), reason }
            }
            FlowEvent::GivenUp { repeat, disposition, reason, item } => {
                Self::GivenUp { repeat: repeat.to_string(), disposition: disposition.into(), reason, item }
            }
            FlowEvent::Extended { repeat, reason } => Self::Extended { repeat: repeat.to_string(), reason },
            FlowEvent::Restarted { section, reason } => Self::Restarted { section: section.0, reason },
            FlowEvent::Chosen(step) => Self::Chosen { step: step.0 },
            FlowEvent::Missed { step, wait } => Self::Missed { step: step.0, wait: wait.to_string() },
            FlowEvent::BegunEarly(repeat) => Self::Early { repeat: repeat.to_string() },
            FlowEvent::Settled { step, disposition, reason } => {
                Self::Settled { step: step.0, disposition: disposition.into(), reason }
            }
        }
    }
}

impl WrittenFlow {
    #[expect(clippy::unnecessary_wraps, reason = "the same for every family of events")]
    pub(super) fn read(self) -> Result<FlowEvent, Unread> {
        Ok(match self {
            Self::SectionComplete { section } => FlowEvent::SectionCompleted(SectionId(section)),
            Self::WorkDone { section } => FlowEvent::WorkDone(SectionId(section)),
            Self::Pass { repeat, item } => {
                FlowEvent::PassEnded { repeat: Name::from(repeat), end: PassEnd::Counts, item }
            }
            Self::InvalidPass { repeat, reason, item } => {
                FlowEvent::PassEnded { repeat: Name::from(repeat), end: PassEnd::Invalid(reason), item }
            }
            Self::PassTakenBack { repeat, reason } => {
                FlowEvent::PassTakenBack { repeat: Name::from(repeat), reason }
            }
            Self::GivenUp { repeat, disposition, reason, item } => FlowEvent::GivenUp {
                repeat: Name::from(repeat),
                disposition: disposition.into(),
                reason,
                item,
            },
            Self::Extended { repeat, reason } => FlowEvent::Extended { repeat: Name::from(repeat), reason },
            Self::Restarted { section, reason } => {
                FlowEvent::Restarted { section: SectionId(section), reason }
            }
            Self::Chosen { step } => FlowEvent::Chosen(StepId(step)),
            Self::Missed { step, wait } => FlowEvent::Missed { step: StepId(step), wait: Name::from(wait) },
            Self::Early { repeat } => FlowEvent::BegunEarly(Name::from(repeat)),
            Self::Settled { step, disposition, reason } => {
                FlowEvent::Settled { step: StepId(step), disposition: disposition.into(), reason }
            }
        })
    }
}
