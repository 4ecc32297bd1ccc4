//! One process at a time writes in the folder of a run; a note says which one.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use serde_json::{Value, json};

use super::error::Holder;
use super::{HOLDER_FILE, JournalError, LOCK_FILE, read_time, write_time};
use crate::system::{Disk, Lock, System};

/// A note of one line; whatever is longer is not that note.
const MOST_BYTES: u64 = 4096;

/// The right to write in a folder. The lock itself is on a file of its own, so that others can still read the journal on
/// systems where a locked file cannot be read.
#[derive(Debug)]
pub(super) struct Held {
    disk: Arc<dyn Disk>,
    note: PathBuf,
    _lock: Lock,
}

impl Held {
    pub(super) fn take(system: &System, folder: &Path) -> Result<Self, JournalError> {
        let Some(lock) = system.disk().try_lock(&folder.join(LOCK_FILE))? else {
            let holder = read_holder(system.disk(), folder);
            let folder = folder.to_path_buf();
            return Err(JournalError::InUse { folder, holder });
        };
        Self::with(lock, system, folder)
    }

    /// The same with the lock that was taken already.
    pub(super) fn with(lock: Lock, system: &System, folder: &Path) -> Result<Self, JournalError> {
        let held = Self { disk: system.shared_disk(), note: folder.join(HOLDER_FILE), _lock: lock };
        held.leave_note(system)?;
        Ok(held)
    }

    fn leave_note(&self, system: &System) -> Result<(), JournalError> {
        let since = write_time(&system.now());
        let note = json!({"pid": system.process_id(), "since": since}).to_string();
        Ok(self.disk.leave_note(&self.note, note.as_bytes())?)
    }
}

impl Drop for Held {
    fn drop(&mut self) {
        // A note that stays is harmless: it is read only while somebody holds the lock, and he writes his own.
        let _ = self.disk.remove(&self.note);
    }
}

/// `None` when the note is not there yet or cannot be read: the lock alone decides.
fn read_holder(disk: &dyn Disk, folder: &Path) -> Option<Holder> {
    let note = disk.read(&folder.join(HOLDER_FILE), MOST_BYTES).ok()?;
    let note: Value = serde_json::from_slice(&note).ok()?;
    Some(Holder {
        pid: u32::try_from(note.get("pid")?.as_u64()?).ok()?,
        since: read_time(note.get("since")?.as_str()?).ok()?,
    })
}
