//! Events of this family as they stand in the journal.

use serde::{Deserialize, Serialize};

use super::{Unread, Written, unread};
use crate::journal::{read_time, write_time};
use crate::run::{LateEntry, TakingEvent};

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenTaking {
    /// Something was done before it was entered.
    Late { done: String, reason: String, event: Box<Written> },
}

impl From<TakingEvent> for WrittenTaking {
    fn from(event: TakingEvent) -> Self {
        match event {
            TakingEvent::Late(late) => Self::Late {
                done: write_time(&late.done),
                reason: late.reason,
                event: Box::new(Written::from(&*late.event)),
            },
        }
    }
}

impl WrittenTaking {
    pub(super) fn read(self) -> Result<TakingEvent, Unread> {
        Ok(match self {
            Self::Late { done, reason, event } => TakingEvent::Late(LateEntry {
                done: read_time(&done).map_err(|_| unread(&done))?,
                reason,
                event: Box::new(event.read()?),
            }),
        })
    }
}
