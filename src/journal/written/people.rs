//! Events of this family as they stand in the journal.

use serde::{Deserialize, Serialize};

use super::Unread;
use crate::run::PeopleEvent;

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenPeople {}

impl From<PeopleEvent> for WrittenPeople {
    fn from(event: PeopleEvent) -> Self {
        match event {}
    }
}

impl WrittenPeople {
    pub(super) fn read(self) -> Result<PeopleEvent, Unread> {
        match self {}
    }
}
