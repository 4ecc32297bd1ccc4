//! A log with the faults of its disk.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::faults::{Faults, HowFar};
use crate::system::{DiskError, Doing, LogFile, Why};

/// A real log with the faults of its disk.
#[derive(Debug)]
pub(super) struct FaultyLog {
    real: Box<dyn LogFile>,
    path: PathBuf,
    faults: Arc<Mutex<Faults>>,
}

impl FaultyLog {
    pub(super) fn new(real: Box<dyn LogFile>, path: &Path, faults: Arc<Mutex<Faults>>) -> Self {
        let path = path.to_path_buf();
        Self { real, path, faults }
    }

    fn faults(&self) -> MutexGuard<'_, Faults> {
        self.faults.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn note_durable(&self) -> Result<(), DiskError> {
        let length = self.real.length()?;
        self.faults().durable.insert(self.path.clone(), length);
        Ok(())
    }

    fn device_error(&self, doing: Doing) -> DiskError {
        device_error(doing, &self.path)
    }

    fn fails(&self) -> Option<HowFar> {
        self.faults().next_change()
    }
}

/// What a broken device answers.
pub(super) fn device_error(doing: Doing, path: &Path) -> DiskError {
    DiskError::new(doing, path, Why::Other(io::Error::other("input/output error")))
}

impl LogFile for FaultyLog {
    fn length(&self) -> Result<u64, DiskError> {
        self.real.length()
    }

    fn append(&mut self, bytes: &[u8]) -> Result<(), DiskError> {
        if let Some(how_far) = self.fails() {
            let arrives = match how_far {
                HowFar::Nothing => 0,
                HowFar::Half => bytes.len() / 2,
                HowFar::All => bytes.len(),
            };
            self.real.append(&bytes[..arrives])?;
            return Err(self.device_error(Doing::Append));
        }
        let torn = self.faults().torn.take();
        if let Some(arrives) = torn {
            self.real.append(&bytes[..arrives.min(bytes.len())])?;
            return Err(self.device_error(Doing::Append));
        }
        let fits = self.faults().take_space(bytes.len());
        self.real.append(&bytes[..fits])?;
        if fits < bytes.len() {
            return Err(DiskError::new(Doing::Append, &self.path, Why::Full));
        }
        Ok(())
    }

    fn sync(&mut self) -> Result<(), DiskError> {
        let how_far = self.fails();
        if how_far == Some(HowFar::All) {
            self.real.sync()?;
            self.note_durable()?;
        }
        let fails = std::mem::take(&mut self.faults().sync_fails);
        if fails || how_far.is_some() {
            return Err(self.device_error(Doing::Sync));
        }
        self.real.sync()?;
        self.note_durable()
    }

    fn cut_to(&mut self, length: u64) -> Result<(), DiskError> {
        let how_far = self.fails();
        if how_far == Some(HowFar::All) {
            self.real.cut_to(length)?;
            self.note_durable()?;
        }
        if self.faults().cut_fails || how_far.is_some() {
            return Err(self.device_error(Doing::Cut));
        }
        self.real.cut_to(length)?;
        self.note_durable()
    }
}
