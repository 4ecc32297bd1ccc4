//! The disk: what the rest of bayhand asks of files, folders, logs and locks.

use std::fmt;
use std::fs::File;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::{DiskError, Doing, Why};

/// The disk operations that bayhand needs, and no others.
///
/// What "durable" means here: the bytes and the name of the file were handed to the device and the device said they
/// are kept. A device that lies about it can still lose them.
pub trait Disk: fmt::Debug + Send + Sync {
    /// The whole of a file of at most `most` bytes.
    fn read(&self, path: &Path, most: u64) -> Result<Vec<u8>, DiskError>;

    /// The whole of a UTF-8 text file of at most `most` bytes.
    fn read_text(&self, path: &Path, most: u64) -> Result<String, DiskError> {
        String::from_utf8(self.read(path, most)?).map_err(|error| {
            let at = error.utf8_error().valid_up_to();
            DiskError::new(Doing::Read, path, Why::NotText { at })
        })
    }

    /// The one path of a file or folder that is there: whole, links followed.
    fn place(&self, path: &Path) -> Result<PathBuf, DiskError>;

    /// How many bytes a file has.
    fn length(&self, path: &Path) -> Result<u64, DiskError>;

    /// Writes a new file so that it is there wholly and durably, or not at all. An existing file is never replaced.
    fn write_new(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError>;

    /// Writes a file in the same way, in place of the one that may stand there.
    fn replace(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError>;

    /// Replaces a note that nobody relies on once the machine has stopped: whoever reads it finds it whole, and nothing
    /// waits for it to be durable.
    fn leave_note(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError> {
        self.replace(path, bytes)
    }

    /// Writes a file into a folder that is still being made. Its bytes are durable then; its name is once the folder has been
    /// given its own by [`Disk::move_folder`].
    fn put_into(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError>;

    /// Removes a file; that none is there is fine.
    fn remove(&self, path: &Path) -> Result<(), DiskError>;

    /// Makes a folder and those above it, durably; that it is there already is fine.
    fn make_folder(&self, path: &Path) -> Result<(), DiskError>;

    /// Makes a folder that must not be there yet: of two processes that ask for the same name, one gets it. It is not durable:
    /// something is made in it first, and it is moved then.
    fn claim_folder(&self, path: &Path) -> Result<(), DiskError>;

    /// Gives a folder another name beside it, durably, with the names of what is in it. What has that name is never replaced, unless it is a folder with
    /// nothing in it.
    fn move_folder(&self, from: &Path, to: &Path) -> Result<(), DiskError>;

    /// When a file was last written to.
    fn written_at(&self, path: &Path) -> Result<SystemTime, DiskError>;

    /// Removes a folder and the files in it. What cannot be removed stays.
    fn remove_with_files(&self, folder: &Path) -> Result<(), DiskError> {
        for entry in self.list(folder)? {
            self.remove(&folder.join(entry.name))?;
        }
        self.remove_folder(folder)
    }

    /// Removes what a process that was killed while it wrote a file left of it under another name. Only for whoever has
    /// the right to write in the folder. With what is in it besides, sorted by name.
    fn clear_leftovers(&self, folder: &Path) -> Result<Vec<Entry>, DiskError> {
        let is_leftover = |entry: &Entry| {
            let rest = entry.name.strip_prefix(LEFTOVER);
            !entry.is_folder
                && rest.is_some_and(|rest| {
                    rest.len() == 6 && rest.bytes().all(|byte| byte.is_ascii_alphanumeric())
                })
        };
        let (leftovers, others): (Vec<_>, Vec<_>) = self.list(folder)?.into_iter().partition(is_leftover);
        for leftover in leftovers {
            self.remove(&folder.join(leftover.name))?;
        }
        Ok(others)
    }

    /// Removes a folder that is empty.
    fn remove_folder(&self, path: &Path) -> Result<(), DiskError>;

    /// What is in a folder, sorted by name.
    fn list(&self, folder: &Path) -> Result<Vec<Entry>, DiskError>;

    /// Opens a file to add to. The folder is synced when the file is new.
    fn open_log(&self, path: &Path, standing: Standing) -> Result<Box<dyn LogFile>, DiskError>;

    /// Takes the lock on a file (made if need be) without waiting; `None` when somebody else has it.
    fn try_lock(&self, path: &Path) -> Result<Option<Lock>, DiskError>;
}

/// The beginning of the name that a file has while it is written; six letters or digits follow.
pub(super) const LEFTOVER: &str = ".tmp";

/// Whether a log must be there or must not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It must not be there yet.
    New,
    /// It must be there.
    Existing,
}

/// One thing in a folder.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Its name; what is not Unicode in it is shown as U+FFFD.
    pub name: String,
    /// Whether it is a folder (or a link to one).
    pub is_folder: bool,
    /// Whether it is a plain file (or a link to one): no pipe, no device, nothing that would have to be waited for.
    pub is_file: bool,
    /// Whether it is a link, to whatever.
    pub is_link: bool,
}

/// A file that is only added to at its end.
pub trait LogFile: fmt::Debug + Send {
    /// The length in bytes of the file that stands under the name now; an error when that is not the file opened here,
    /// because somebody moved, replaced or removed it.
    fn length(&self) -> Result<u64, DiskError>;

    /// Adds bytes at the end with one write. After an error some of them may be there.
    fn append(&mut self, bytes: &[u8]) -> Result<(), DiskError>;

    /// Returns when everything added is durable. After an error nothing is known about what was added since the last
    /// success, and another success says nothing about it either.
    fn sync(&mut self) -> Result<(), DiskError>;

    /// Cuts the file to a length, durably.
    fn cut_to(&mut self, length: u64) -> Result<(), DiskError>;
}

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
