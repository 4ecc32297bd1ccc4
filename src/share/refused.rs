//! Why an archive is not taken.

use std::fmt;

use super::bundle::{BundleProblem, MOST_BYTES};
use super::path::PathProblem;

/// Why an archive is not taken. Nothing of it is used then.
#[derive(Debug)]
pub enum Refused {
    /// It is no ZIP archive, or a part of one.
    NotAnArchive(rawzip::Error),
    /// There is nothing in it.
    Empty,
    /// A file has a path that leads elsewhere, or that not every system takes.
    Path {
        /// As it stands in the archive.
        path: String,
        /// What is wrong with it.
        why: PathProblem,
    },
    /// Two places of the archive give one file two names.
    TwoNames {
        /// The name in the list of files.
        path: String,
    },
    /// Something is no ordinary file: a link to another place, a device.
    NotAFile {
        /// Its path.
        path: String,
    },
    /// A file is encrypted.
    Encrypted {
        /// Its path.
        path: String,
    },
    /// A file is packed in a way that is not known here.
    Packed {
        /// Its path.
        path: String,
    },
    /// A file cannot be unpacked, or is not what its checksum says.
    Damaged {
        /// Its path.
        path: String,
    },
    /// Files lie over each other in the archive: a trick to make much of little.
    Overlapping,
    /// The files do not go together.
    Bundle(BundleProblem),
}

/// So much of a path that is refused is shown: an archive can hold one of 64 KiB.
const LONGEST_SHOWN: usize = 80;

impl fmt::Display for Refused {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotAnArchive(error) => write!(
                out,
                "this is no whole ZIP archive ({}); fetch it again, or ask for it again",
                error.to_string().to_lowercase()
            ),
            Self::Empty => out.write_str("there is no file in it; ask for it again"),
            Self::Path { path, why } => {
                let begins: String = path.chars().take(LONGEST_SHOWN).collect();
                let more = if begins.len() < path.len() { "..." } else { "" };
                write!(
                    out,
                    "a file in it is called `{}{more}`: {why}. Nobody shares such a file by accident",
                    begins.escape_debug()
                )
            }
            Self::TwoNames { path } => {
                write!(out, "`{path}` has another name where it lies than in the list of files")
            }
            Self::NotAFile { path } => {
                write!(out, "`{path}` is no ordinary file; pack it again without links to other places")
            }
            Self::Encrypted { path } => {
                write!(out, "`{path}` is encrypted; unpack it with the program that packed it")
            }
            Self::Packed { path } => {
                write!(
                    out,
                    "`{path}` is packed in a way that is not known here; unpack it with another program"
                )
            }
            Self::Damaged { path } => {
                write!(out, "`{path}` is damaged; fetch the archive again, or ask for it again")
            }
            Self::Overlapping => out.write_str("files lie over each other in it; it was made to do harm"),
            Self::Bundle(BundleProblem::TooLarge) => write!(
                out,
                "unpacked it is larger than {} MiB; it is no job that somebody shared",
                MOST_BYTES >> 20
            ),
            Self::Bundle(problem) => write!(out, "{problem}; it was not packed by this program"),
        }
    }
}

impl std::error::Error for Refused {}
