//! Events of this family as they stand in the journal.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::{Unread, WrittenAnswer, WrittenDisposition, WrittenEntry};
use crate::procedure::{Name, StepId};
use crate::run::{KeptFile, TakingEvent};

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenTaking {
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

/// A file that is kept with the run, as written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrittenFile {
    name: String,
    size: u64,
    sha256: String,
}

impl From<KeptFile> for WrittenFile {
    fn from(KeptFile { name, size, sha256 }: KeptFile) -> Self {
        Self { name, size, sha256 }
    }
}

impl From<WrittenFile> for KeptFile {
    fn from(WrittenFile { name, size, sha256 }: WrittenFile) -> Self {
        Self { name, size, sha256 }
    }
}

impl From<TakingEvent> for WrittenTaking {
    fn from(event: TakingEvent) -> Self {
        match event {
            TakingEvent::Instrument { tool, identity, due } => {
                Self::Instrument { tool: tool.0, identity, due }
            }
            TakingEvent::OverdueAccepted { tool, disposition, reason } => {
                Self::OverdueAccepted { tool: tool.0, disposition: disposition.into(), reason }
            }
            TakingEvent::Typed { step, act, text } => Self::Typed { step: step.0, act: act.0, text },
            TakingEvent::OdometerCorrected { value, reason } => {
                Self::OdometerCorrected { value: (&value).into(), reason }
            }
            TakingEvent::VehicleValueCorrected { name, value, source, reason } => {
                Self::VehicleValueCorrected { name: name.0, value: value.into(), source, reason }
            }
        }
    }
}

impl WrittenTaking {
    pub(super) fn read(self) -> Result<TakingEvent, Unread> {
        Ok(match self {
            Self::Instrument { tool, identity, due } => {
                TakingEvent::Instrument { tool: Name(tool), identity, due }
            }
            Self::OverdueAccepted { tool, disposition, reason } => {
                TakingEvent::OverdueAccepted { tool: Name(tool), disposition: disposition.into(), reason }
            }
            Self::Typed { step, act, text } => {
                TakingEvent::Typed { step: StepId(step), act: Name(act), text }
            }
            Self::OdometerCorrected { value, reason } => {
                TakingEvent::OdometerCorrected { value: value.read()?, reason }
            }
            Self::VehicleValueCorrected { name, value, source, reason } => {
                TakingEvent::VehicleValueCorrected { name: Name(name), value: value.read()?, source, reason }
            }
        })
    }
}
