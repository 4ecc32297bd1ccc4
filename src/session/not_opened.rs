//! Why a run cannot be opened, in words that name the way out.

use std::fmt;

use crate::journal::JournalError;

/// Why a run cannot be opened.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Debug)]
pub enum NotOpened {
    /// Its journal cannot be read or written.
    Journal(JournalError),
    /// Its pinned text was changed after the start.
    PinChanged { file: String },
    /// Its pinned text cannot be read by this version.
    Unreadable { file: String, why: String },
    /// Its journal holds no start: it died before its first event, or its entries were lost.
    Empty,
}

impl std::error::Error for NotOpened {}

impl fmt::Display for NotOpened {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Journal(error) => write!(formatter, "{error}"),
            Self::PinChanged { file } => write!(
                formatter,
                "`{file}` in the folder of this run is not what the run was started with; put the original back \
                 from a copy. The journal is whole and was not touched"
            ),
            Self::Unreadable { file, why } => write!(
                formatter,
                "`{file}` in the folder of this run cannot be read by this version of bayhand ({why}); \
                 the version that started the run can"
            ),
            Self::Empty => formatter.write_str(
                "the journal of this run is empty: either the run ended before its first entry was kept, and nothing is \
                 lost, or its entries were lost; where entries had been acknowledged, put `journal.jsonl` back from a copy",
            ),
        }
    }
}
