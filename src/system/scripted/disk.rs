//! A disk that fails when told to: full, no sync, a power cut.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::faults::{Fault, Faults};
use super::log::FaultyLog;
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
        }
    }

    /// From now on nothing goes wrong.
    pub fn heal(&self) {
        let mut faults = self.faults();
        let durable = std::mem::take(&mut faults.durable);
        *faults = Faults { durable, ..Faults::default() };
    }

    /// The power fails and comes back: of each log that was opened here, all that was never synced is gone, which is the
    /// worst that a power cut may do to it. Close the logs before.
    pub fn lose_power(&self) -> Result<(), DiskError> {
        let durable = self.faults().durable.clone();
        durable.iter().try_for_each(|(path, &length)| {
            let mut log = RealDisk.open_log(path, Standing::Existing)?;
            log.cut_to(length)
        })
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

    fn write_new(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError> {
        self.has_space_for(path, bytes)?;
        RealDisk.write_new(path, bytes)
    }

    fn replace(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError> {
        self.has_space_for(path, bytes)?;
        RealDisk.replace(path, bytes)
    }

    fn remove(&self, path: &Path) -> Result<(), DiskError> {
        RealDisk.remove(path)
    }

    fn make_folder(&self, path: &Path) -> Result<(), DiskError> {
        RealDisk.make_folder(path)
    }

    fn claim_folder(&self, path: &Path) -> Result<(), DiskError> {
        RealDisk.claim_folder(path)
    }

    fn remove_folder(&self, path: &Path) -> Result<(), DiskError> {
        RealDisk.remove_folder(path)
    }

    fn list(&self, folder: &Path) -> Result<Vec<Entry>, DiskError> {
        RealDisk.list(folder)
    }

    fn open_log(&self, path: &Path, standing: Standing) -> Result<Box<dyn LogFile>, DiskError> {
        let log = RealDisk.open_log(path, standing)?;
        self.faults().durable.entry(path.to_path_buf()).or_default();
        Ok(Box::new(FaultyLog::new(log, path, Arc::clone(&self.faults))))
    }

    fn try_lock(&self, path: &Path) -> Result<Option<Lock>, DiskError> {
        RealDisk.try_lock(path)
    }
}
