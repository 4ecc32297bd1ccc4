//! Events of this family as they stand in the journal.

use serde::{Deserialize, Serialize};

use super::Unread;
use crate::run::TakingEvent;

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenTaking {}

impl From<TakingEvent> for WrittenTaking {
    fn from(event: TakingEvent) -> Self {
        match event {}
    }
}

impl WrittenTaking {
    pub(super) fn read(self) -> Result<TakingEvent, Unread> {
        match self {}
    }
}
