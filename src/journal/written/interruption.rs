//! Events of this family as they stand in the journal.

use serde::{Deserialize, Serialize};

use super::Unread;
use crate::run::InterruptionEvent;

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenInterruption {}

impl From<InterruptionEvent> for WrittenInterruption {
    fn from(event: InterruptionEvent) -> Self {
        match event {}
    }
}

impl WrittenInterruption {
    pub(super) fn read(self) -> Result<InterruptionEvent, Unread> {
        match self {}
    }
}
