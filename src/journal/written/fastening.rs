//! Events of this family as they stand in the journal.

use serde::{Deserialize, Serialize};

use super::Unread;
use crate::run::FasteningEvent;

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenFastening {}

impl From<FasteningEvent> for WrittenFastening {
    fn from(event: FasteningEvent) -> Self {
        match event {}
    }
}

impl WrittenFastening {
    pub(super) fn read(self) -> Result<FasteningEvent, Unread> {
        match self {}
    }
}
