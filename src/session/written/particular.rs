//! Events of this family as they stand in the journal.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::{Unread, WrittenAnswer, WrittenDisposition, WrittenEntry};
use crate::procedure::{Name, StepId};
use crate::run::ParticularEvent;

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenParticular {
    /// Which instrument stands for a tool.
    Instrument { tool: String, identity: String, due: Date },
    /// An instrument is used overdue.
    OverdueAccepted { tool: String, disposition: WrittenDisposition, reason: String },
    /// What a critical act asks for was typed.
    Typed { step: usize, act: String, text: String },
    /// The odometer was corrected.
    OdometerCorrected { value: WrittenEntry, reason: String },
    /// A value of the vehicle was corrected.
    VehicleValueCorrected { name: String, value: WrittenAnswer, source: String, reason: String },
}

impl From<ParticularEvent> for WrittenParticular {
    fn from(event: ParticularEvent) -> Self {
        match event {
            ParticularEvent::Instrument { tool, identity, due } => {
                Self::Instrument { tool: tool.to_string(), identity, due }
            }
            ParticularEvent::OverdueAccepted { tool, disposition, reason } => {
                Self::OverdueAccepted { tool: tool.to_string(), disposition: disposition.into(), reason }
            }
            ParticularEvent::Typed { step, act, text } => {
                Self::Typed { step: step.0, act: act.to_string(), text }
            }
            ParticularEvent::OdometerCorrected { value, reason } => {
                Self::OdometerCorrected { value: (&value).into(), reason }
            }
            ParticularEvent::VehicleValueCorrected { name, value, source, reason } => {
                Self::VehicleValueCorrected { name: name.to_string(), value: value.into(), source, reason }
            }
        }
    }
}

impl WrittenParticular {
    pub(super) fn read(self) -> Result<ParticularEvent, Unread> {
        Ok(match self {
            Self::Instrument { tool, identity, due } => {
                ParticularEvent::Instrument { tool: Name::from(tool), identity, due }
            }
            Self::OverdueAccepted { tool, disposition, reason } => ParticularEvent::OverdueAccepted {
                tool: Name::from(tool),
                disposition: disposition.into(),
                reason,
            },
            Self::Typed { step, act, text } => {
                ParticularEvent::Typed { step: StepId(step), act: Name::from(act), text }
            }
            Self::OdometerCorrected { value, reason } => {
                ParticularEvent::OdometerCorrected { value: value.read()?, reason }
            }
            Self::VehicleValueCorrected { name, value, source, reason } => {
                ParticularEvent::VehicleValueCorrected {
                    name: Name::from(name),
                    value: value.read()?,
                    source,
                    reason,
                }
            }
        })
    }
}
