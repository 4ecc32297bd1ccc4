//! A log with the faults of its disk.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::faults::Faults;
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
        let why = Why::Other(io::Error::other("input/output error"));
        DiskError::new(doing, &self.path, why)
    }
}

impl LogFile for FaultyLog {
    fn length(&self) -> Result<u64, DiskError> {
        self.real.length()
    }

    fn append(&mut self, bytes: &[u8]) -> Result<(), DiskError> {
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
        let fails = std::mem::take(&mut self.faults().sync_fails);
        if fails {
            return Err(self.device_error(Doing::Sync));
        }
        self.real.sync()?;
        self.note_durable()
    }

    fn cut_to(&mut self, length: u64) -> Result<(), DiskError> {
        if self.faults().cut_fails {
            return Err(self.device_error(Doing::Cut));
        }
        self.real.cut_to(length)?;
        self.note_durable()
    }
}
