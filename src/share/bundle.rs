//! Files that belong together, each under a path of its own.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;

use super::path::SharedPath;

/// The most files that are passed on together.
pub const MOST_FILES: usize = 1_000;
/// The most bytes of all of them together: procedures are small, pictures are not.
pub const MOST_BYTES: usize = 64 << 20;

/// Files that are passed on together, by their paths.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Bundle {
    files: BTreeMap<SharedPath, Vec<u8>>,
    /// Every path, and every folder on the way to one, as a disk knows them that does not tell large letters from small.
    folded: BTreeSet<String>,
    folders: BTreeSet<String>,
    bytes: usize,
}

/// Why a file cannot go with the others.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum BundleProblem {
    /// Another one has its name, or one that some disks take for the same.
    Twice(SharedPath),
    /// Its name is that of a folder of another one.
    Folder(SharedPath),
    /// There are too many.
    TooMany,
    /// They are too large together.
    TooLarge,
}

impl Bundle {
    /// Puts a file to the others.
    pub fn add(&mut self, path: SharedPath, bytes: Vec<u8>) -> Result<(), BundleProblem> {
        let folded = path.folded();
        let above: Vec<String> = folded.match_indices('/').map(|(at, _)| folded[..at].to_owned()).collect();
        if self.folded.contains(&folded) {
            return Err(BundleProblem::Twice(path));
        }
        if self.folders.contains(&folded) || above.iter().any(|folder| self.folded.contains(folder)) {
            return Err(BundleProblem::Folder(path));
        }
        if self.files.len() >= MOST_FILES {
            return Err(BundleProblem::TooMany);
        }
        self.bytes = self.bytes.saturating_add(bytes.len());
        if self.bytes > MOST_BYTES {
            return Err(BundleProblem::TooLarge);
        }
        self.folded.insert(folded);
        self.folders.extend(above);
        self.files.insert(path, bytes);
        Ok(())
    }

    /// The files, by path.
    pub fn files(&self) -> impl Iterator<Item = (&SharedPath, &[u8])> {
        self.files.iter().map(|(path, bytes)| (path, bytes.as_slice()))
    }

    /// Whether there is a file of that path.
    pub fn has(&self, path: &SharedPath) -> bool {
        self.files.contains_key(path)
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.files.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.files.is_empty()
    }

    /// How many bytes they have together.
    pub fn bytes(&self) -> usize {
        self.bytes
    }
}

impl fmt::Display for BundleProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Twice(path) => write!(out, "two files are called `{path}`, or are the same to some disks"),
            Self::Folder(path) => write!(out, "`{path}` is a file and a folder at once"),
            Self::TooMany => write!(out, "there are more than {MOST_FILES} files"),
            Self::TooLarge => {
                write!(out, "the files are larger than {} MiB together", MOST_BYTES >> 20)
            }
        }
    }
}
