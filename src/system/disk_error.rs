//! A disk operation that did not work: what was being done, with which file, and why.

use std::fmt;
use std::io::{Error, ErrorKind};
use std::path::{Path, PathBuf};

/// A disk operation that did not work.
#[derive(Debug)]
pub struct DiskError {
    /// What was being done.
    pub doing: Doing,
    /// With which file or folder.
    pub path: PathBuf,
    /// Why it did not work.
    pub why: Why,
}

/// What was being done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doing {
    /// Reading a file.
    Read,
    /// Writing a whole file.
    Write,
    /// Adding to a log.
    Append,
    /// Making sure that it is kept.
    Sync,
    /// Cutting a log.
    Cut,
    /// Removing a file.
    Remove,
    /// Making a folder.
    MakeFolder,
    /// Listing a folder.
    List,
    /// Taking a lock.
    Lock,
}

/// Why it did not work.
#[derive(Debug)]
pub enum Why {
    /// There is no such file or folder.
    NotThere,
    /// Something of this name is there already.
    AlreadyThere,
    /// The system does not allow it.
    NotAllowed,
    /// The disk is full, or the person's share of it.
    Full,
    /// It is a folder, not a file.
    IsFolder,
    /// It is a pipe, a device or a socket: reading it could wait for ever, or never end.
    NoFile,
    /// It is larger than what is read.
    TooLarge {
        /// The largest size that is read, in bytes.
        most: u64,
    },
    /// It is not UTF-8 text.
    NotText {
        /// The byte where the text ends, from 0.
        at: usize,
    },
    /// The file under this name is no longer the one that was opened.
    Replaced,
    /// This disk cannot do it at all.
    Unsupported,
    /// Anything else, in the words of the operating system.
    Other(Error),
}

impl DiskError {
    /// An error of bayhand's own.
    pub fn new(doing: Doing, path: &Path, why: Why) -> Self {
        let path = path.to_path_buf();
        Self { doing, path, why }
    }

    /// An error that the operating system reported.
    pub fn from_io(doing: Doing, path: &Path, error: Error) -> Self {
        Self::new(doing, path, Why::from(error))
    }

    /// What the person can do about it.
    pub fn way_out(&self) -> &'static str {
        match self.why {
            Why::NotThere => "check the path",
            Why::AlreadyThere => "choose another name, or move the existing one away",
            Why::NotAllowed => "check who owns it and whether it may be written to",
            Why::Full => "free some space on the disk",
            Why::IsFolder => "name a file",
            Why::NoFile => "save what comes from it to a file, and name that",
            Why::TooLarge { .. } => "check that it is the file that was meant",
            Why::NotText { .. } => "save it as UTF-8 in a text editor",
            Why::Replaced => "put the file back under its name, or keep other programs off this folder",
            Why::Unsupported => "use a folder on a local disk (BAYHAND_DATA names it)",
            Why::Other(_) => "check the disk and its cable",
        }
    }
}

impl From<Error> for Why {
    fn from(error: Error) -> Self {
        match error.kind() {
            ErrorKind::NotFound | ErrorKind::NotADirectory => Self::NotThere,
            ErrorKind::AlreadyExists => Self::AlreadyThere,
            ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => Self::NotAllowed,
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => Self::Full,
            ErrorKind::IsADirectory => Self::IsFolder,
            ErrorKind::Unsupported => Self::Unsupported,
            _ => Self::Other(error),
        }
    }
}

impl fmt::Display for DiskError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (doing, path) = (self.doing, self.path.display());
        write!(out, "could not {doing} `{path}`: {}", self.why)
    }
}

impl std::error::Error for DiskError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match &self.why {
            Why::Other(error) => Some(error),
            _ => None,
        }
    }
}

impl fmt::Display for Doing {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Read => "read",
            Self::Write => "write",
            Self::Append => "add to",
            Self::Sync => "make durable",
            Self::Cut => "cut",
            Self::Remove => "remove",
            Self::MakeFolder => "make the folder",
            Self::List => "list the folder",
            Self::Lock => "lock",
        })
    }
}

impl fmt::Display for Why {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotThere => out.write_str("there is nothing of this name"),
            Self::AlreadyThere => out.write_str("something of this name is there already"),
            Self::NotAllowed => out.write_str("the system does not allow it"),
            Self::Full => out.write_str("the disk is full"),
            Self::IsFolder => out.write_str("it is a folder, not a file"),
            Self::NoFile => out.write_str("it is a pipe, a device or a socket, not a file"),
            Self::TooLarge { most } => write!(out, "it is larger than {most} bytes"),
            Self::NotText { at } => write!(out, "it is not UTF-8 text from byte {at} on"),
            Self::Replaced => out.write_str("another file stands under its name, or none"),
            Self::Unsupported => out.write_str("this disk cannot do that"),
            Self::Other(error) => write!(out, "{error}"),
        }
    }
}
