//! A folder for what is not to be kept.

use std::path::Path;

use super::{DiskError, Doing, System};

/// A folder that is gone when this is dropped.
#[derive(Debug)]
pub struct ScratchFolder(tempfile::TempDir);

impl ScratchFolder {
    /// Where it is.
    pub fn path(&self) -> &Path {
        self.0.path()
    }
}

impl System {
    /// Makes a folder for something that is not to be kept.
    pub fn scratch_folder(&self) -> Result<ScratchFolder, DiskError> {
        let folder = tempfile::Builder::new().prefix("bayhand-").tempdir();
        folder
            .map(ScratchFolder)
            .map_err(|error| DiskError::from_io(Doing::MakeFolder, &std::env::temp_dir(), error))
    }
}
