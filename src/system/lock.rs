//! A lock on a file, held as long as its value lives.

use std::fs::File;

/// A lock that is held until this value, or the process, is gone.
#[derive(Debug)]
pub struct Lock {
    _file: File,
}

impl Lock {
    pub(super) fn of(file: File) -> Self {
        Self { _file: file }
    }
}
