//! A log on the disk of the machine: added to at its end, made durable, cut.

use std::fs::{File, Metadata, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::{DiskError, Doing, LogFile, Standing, Why};

/// A log on a real disk.
#[derive(Debug)]
pub(super) struct RealLog {
    path: PathBuf,
    /// Writes always go to the end, wherever another handle stands.
    end: File,
    /// A handle of its own, since one that only appends may not cut on every platform.
    cutter: File,
}

impl RealLog {
    pub(super) fn open(path: &Path, standing: Standing) -> io::Result<Self> {
        let mut appending = OpenOptions::new();
        super::at_once::at_once(appending.append(true).create_new(standing == Standing::New));
        Ok(Self {
            end: appending.open(path)?,
            cutter: OpenOptions::new().write(true).open(path)?,
            path: path.to_path_buf(),
        })
    }

    fn failed(&self, doing: Doing) -> impl Fn(io::Error) -> DiskError {
        move |error| DiskError::from_io(doing, &self.path, error)
    }
}

impl LogFile for RealLog {
    fn length(&self) -> Result<u64, DiskError> {
        let opened = self.end.metadata().map_err(self.failed(Doing::Read))?;
        let named = std::fs::metadata(&self.path).ok();
        match named {
            Some(named) if is_same(&opened, &named) => Ok(opened.len()),
            _ => Err(DiskError::new(Doing::Append, &self.path, Why::Replaced)),
        }
    }

    fn append(&mut self, bytes: &[u8]) -> Result<(), DiskError> {
        self.end.write_all(bytes).map_err(|error| DiskError::from_io(Doing::Append, &self.path, error))
    }

    fn sync(&mut self) -> Result<(), DiskError> {
        self.end.sync_data().map_err(self.failed(Doing::Sync))
    }

    fn cut_to(&mut self, length: u64) -> Result<(), DiskError> {
        self.cutter.set_len(length).and_then(|()| self.cutter.sync_all()).map_err(self.failed(Doing::Cut))
    }
}

#[cfg(unix)]
fn is_same(one: &Metadata, other: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    (one.dev(), one.ino()) == (other.dev(), other.ino())
}

/// Where files carry no number that stable Rust can read, the length must do.
#[cfg(not(unix))]
fn is_same(one: &Metadata, other: &Metadata) -> bool {
    one.len() == other.len()
}
