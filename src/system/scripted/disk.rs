//! A disk that fails when told to: full, no sync, a power cut.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::SystemTime;

use super::faults::{Fault, Faults, HowFar};
use super::log::{FaultyLog, device_error};
use crate::system::disk::LEFTOVER;
use crate::system::{Disk, DiskError, Doing, Entry, Lock, LogFile, RealDisk, Standing, Why};

/// The real disk, until a fault is injected. Every clone has the same faults.
#[derive(Clone, Debug, Default)]
pub struct FaultyDisk {
    faults: Arc<Mutex<Faults>>,
}

impl FaultyDisk {
    /// From now on this goes wrong.
    pub fn inject(&self, fault: Fault) {
        let mut faults = self.faults();
        match fault {
            Fault::FullAfter(bytes) => faults.space = Some(bytes),
            Fault::TornWrite(bytes) => faults.torn = Some(bytes),
            Fault::SyncFails => faults.sync_fails = true,
            Fault::CutFails => faults.cut_fails = true,
            Fault::Once(more, how_far) => faults.at = Some((faults.changes + more, how_far, false)),
            Fault::FromThenOn(more, how_far) => faults.at = Some((faults.changes + more, how_far, true)),
        }
    }

    /// From now on nothing goes wrong.
    pub fn heal(&self) {
        let mut faults = self.faults();
        let durable = std::mem::take(&mut faults.durable);
        *faults = Faults { durable, changes: faults.changes, ..Faults::default() };
    }

    /// The power fails and comes back: of each log that was opened here, all that was never synced is gone, which is the
    /// worst that a power cut may do to it. Close the logs before.
    pub fn lose_power(&self) -> Result<(), DiskError> {
        let durable = self.faults().durable.clone();
        let is_there = |path: &&PathBuf| RealDisk.length(path).is_ok();
        durable.iter().filter(|(path, _)| is_there(path)).try_for_each(|(path, &length)| {
            let mut log = RealDisk.open_log(path, Standing::Existing)?;
            log.cut_to(length)
        })
    }

    /// How many operations changed something up to now, or tried to.
    pub fn changes(&self) -> u64 {
        self.faults().changes
    }

    /// A whole file is durable as soon as it is there.
    fn note_durable(&self, path: &Path, bytes: &[u8]) {
        self.faults().durable.insert(path.to_path_buf(), bytes.len() as u64);
    }

    /// Does it, as far as it comes.
    fn change<T>(
        &self,
        doing: Doing,
        path: &Path,
        does: impl FnOnce() -> Result<T, DiskError>,
    ) -> Result<T, DiskError> {
        let fails = self.faults().next_change();
        match fails {
            None => does(),
            Some(HowFar::All) => does().and_then(|_| Err(device_error(doing, path))),
            Some(_) => Err(device_error(doing, path)),
        }
    }

    /// The same with a whole file: half of it lies under the name that it has while it is written.
    fn file_change(
        &self,
        path: &Path,
        bytes: &[u8],
        does: impl FnOnce() -> Result<(), DiskError>,
    ) -> Result<(), DiskError> {
        let fails = self.faults().next_change();
        match fails {
            None => return does(),
            Some(HowFar::All) => does()?,
            Some(HowFar::Half) => {
                let half = path.with_file_name(format!("{LEFTOVER}half00"));
                RealDisk.replace(&half, &bytes[..bytes.len() / 2])?;
            }
            Some(HowFar::Nothing) => {}
        }
        Err(device_error(Doing::Write, path))
    }

    fn faults(&self) -> MutexGuard<'_, Faults> {
        self.faults.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A whole file is there or not, so one that does not fit leaves nothing.
    fn has_space_for(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError> {
        if self.faults().take_space(bytes.len()) == bytes.len() {
            return Ok(());
        }
        Err(DiskError::new(Doing::Write, path, Why::Full))
    }
}

impl Disk for FaultyDisk {
    fn read(&self, path: &Path, most: u64) -> Result<Vec<u8>, DiskError> {
        RealDisk.read(path, most)
    }

    fn place(&self, path: &Path) -> Result<PathBuf, DiskError> {
        RealDisk.place(path)
    }

    fn length(&self, path: &Path) -> Result<u64, DiskError> {
        RealDisk.length(path)
    }

    fn written_at(&self, path: &Path) -> Result<SystemTime, DiskError> {
        RealDisk.written_at(path)
    }

    fn write_new(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError> {
        self.has_space_for(path, bytes)?;
        self.file_change(path, bytes, || {
            RealDisk.write_new(path, bytes).map(|()| self.note_durable(path, bytes))
        })
    }

    fn replace(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError> {
        self.has_space_for(path, bytes)?;
        self.file_change(path, bytes, || {
            RealDisk.replace(path, bytes).map(|()| self.note_durable(path, bytes))
        })
    }

    fn put_into(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError> {
        self.has_space_for(path, bytes)?;
        self.file_change(path, bytes, || {
            RealDisk.put_into(path, bytes).map(|()| self.note_durable(path, bytes))
        })
    }

    fn remove(&self, path: &Path) -> Result<(), DiskError> {
        self.change(Doing::Remove, path, || RealDisk.remove(path))
    }

    fn make_folder(&self, path: &Path) -> Result<(), DiskError> {
        self.change(Doing::MakeFolder, path, || RealDisk.make_folder(path))
    }

    fn claim_folder(&self, path: &Path) -> Result<(), DiskError> {
        self.change(Doing::MakeFolder, path, || RealDisk.claim_folder(path))
    }

    fn move_folder(&self, from: &Path, to: &Path) -> Result<(), DiskError> {
        self.change(Doing::Write, to, || {
            RealDisk.move_folder(from, to)?;
            let mut faults = self.faults();
            let durable = std::mem::take(&mut faults.durable).into_iter();
            let moved = |path: PathBuf| path.strip_prefix(from).map(|rest| to.join(rest)).unwrap_or(path);
            faults.durable = durable.map(|(path, length)| (moved(path), length)).collect();
            Ok(())
        })
    }

    fn remove_folder(&self, path: &Path) -> Result<(), DiskError> {
        self.change(Doing::Remove, path, || RealDisk.remove_folder(path))
    }

    fn list(&self, folder: &Path) -> Result<Vec<Entry>, DiskError> {
        RealDisk.list(folder)
    }

    fn open_log(&self, path: &Path, standing: Standing) -> Result<Box<dyn LogFile>, DiskError> {
        let log = self.change(Doing::Append, path, || RealDisk.open_log(path, standing))?;
        self.faults().durable.entry(path.to_path_buf()).or_default();
        Ok(Box::new(FaultyLog::new(log, path, Arc::clone(&self.faults))))
    }

    fn try_lock(&self, path: &Path) -> Result<Option<Lock>, DiskError> {
        self.change(Doing::Lock, path, || RealDisk.try_lock(path))
    }
}
