//! What can be wrong with a record.

use std::fmt;

use super::model::FORMAT;
use crate::journal::Damage;
use crate::run::OpenItem;

/// Something that shows that a record is not what was sealed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Finding {
    /// It is not JSON, a key stands twice in it, or a field is missing, unknown or of another kind.
    NotARecord {
        /// Why.
        why: String,
    },
    /// Its format is not known.
    Format {
        /// The format that it names.
        found: u32,
    },
    /// The seal does not belong to it.
    Seal {
        /// The hash that it carries.
        carried: String,
        /// The hash that it has.
        is: String,
    },
    /// The hash of a carried text is not the one that stands beside it.
    Hash {
        /// Which text.
        text: String,
    },
    /// A carried text is not the one that the run was started with.
    NotPinned {
        /// Which text.
        file: String,
    },
    /// A line of the carried journal is not as it was written.
    Journal {
        /// The entry, from 1.
        line: u64,
        /// What is wrong with it.
        damage: Damage,
    },
    /// A carried text cannot be read by this version.
    NotReadable {
        /// Why.
        why: String,
    },
    /// An entry of the carried journal is not one that the procedure allowed at that moment.
    NotPermitted {
        /// The entry, from 1.
        entry: u64,
        /// Why not.
        why: String,
    },
    /// The carried journal is that of a run with something open.
    Open(OpenItem),
    /// A file that was kept with the run is gone, or is another.
    File {
        /// The entry that names it, from 1.
        entry: u64,
        /// What it is called.
        name: String,
        /// The hash of what was kept.
        kept: String,
        /// The hash of what lies there now; nothing where nothing does.
        is: Option<String>,
    },
    /// The record says something else than the journal gives.
    Differs {
        /// Where: `/readings/2/attempts/0/answer`.
        at: String,
        /// The entry that this is about, from 1, where it is about one.
        entry: Option<u64>,
        /// What the record says.
        says: String,
        /// What the journal gives.
        gives: String,
    },
}

impl fmt::Display for Finding {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotARecord { why } => write!(out, "this is not a record: {why}"),
            Self::Format { found } => write!(
                out,
                "the record has format {found}, and this version reads format {FORMAT}; use the version that wrote it"
            ),
            Self::Seal { carried, is } => {
                write!(out, "the seal does not belong to this record: it says {carried}, the record has {is}")
            }
            Self::Hash { text } => {
                write!(out, "the {text} in this record is not the one whose hash stands beside it")
            }
            Self::NotPinned { file } => {
                write!(out, "`{file}` in this record is not what the run was started with")
            }
            Self::Journal { line, damage } => {
                write!(out, "not verified at entry {line}: {}", damage.told(*line))
            }
            Self::NotReadable { why } => write!(out, "it cannot be worked out again: {why}"),
            Self::NotPermitted { entry, why } => {
                write!(out, "not verified at entry {entry}: it could not happen there ({why})")
            }
            Self::Open(item) => write!(out, "the run was not finished: {item}"),
            Self::File { entry, name, is: None, .. } => {
                write!(out, "entry {entry}: the file `{name}` that was kept with it is not there")
            }
            Self::File { entry, name, kept, is: Some(is) } => write!(
                out,
                "entry {entry}: the file `{name}` is not the one that was kept with it (SHA-256 {is}, kept was {kept})"
            ),
            Self::Differs { at, entry, says, gives } => {
                let entry = entry.map(|entry| format!("entry {entry}: ")).unwrap_or_default();
                write!(out, "{entry}`{at}` says {says}, but the journal gives {gives}")
            }
        }
    }
}
