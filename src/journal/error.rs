//! What can go wrong with a journal, each with what is safe and the way out.

use std::fmt;
use std::path::{Path, PathBuf};

use super::{Damage, FORMAT, MOST_BYTES};
use crate::system::DiskError;

const UNTOUCHED: &str = "bayhand has changed nothing";

/// What can go wrong with a journal. Each message says what is wrong, what is safe, and the way out.
#[derive(Debug)]
pub enum JournalError {
    /// The disk could not do it, before anything was written to the journal.
    Disk(DiskError),
    /// The folder has no journal.
    Missing {
        /// The folder.
        folder: PathBuf,
    },
    /// The folder has a journal already.
    Exists {
        /// The folder.
        folder: PathBuf,
    },
    /// Somebody else works on this run.
    InUse {
        /// The folder of the run.
        folder: PathBuf,
        /// Who, where that is known.
        holder: Option<Holder>,
    },
    /// A line is not as it was written.
    Damaged {
        /// The journal.
        path: PathBuf,
        /// The line, from 1.
        line: u64,
        /// What is wrong with it.
        damage: Damage,
    },
    /// The journal has a format that is not known.
    UnknownFormat {
        /// The journal.
        path: PathBuf,
        /// The format it names.
        found: String,
    },
    /// A line is sound, but its event means nothing to this bayhand.
    UnknownEvent {
        /// The line, from 1.
        line: u64,
        /// What is not understood.
        why: String,
    },
    /// The event cannot be written so that it can be read again.
    NotAnEvent {
        /// Why not.
        why: String,
    },
    /// The journal has reached the largest size.
    TooLong {
        /// The journal.
        path: PathBuf,
    },
    /// The event could not be made durable.
    NotWritten {
        /// The number of the last event that is.
        last: u64,
        /// Whether it may be found there all the same, since it could not be cut off again.
        may_be_there: bool,
        /// What the disk said.
        cause: DiskError,
    },
    /// Something else has written to the file while it was open here.
    ChangedOutside {
        /// The journal.
        path: PathBuf,
        /// The number of the last event that was made durable.
        last: u64,
    },
    /// An earlier event could not be made durable, so no other is taken.
    Stopped {
        /// The number of the last event that is durable.
        last: u64,
    },
    /// The text cannot be the name of a run.
    NotARun {
        /// The text.
        text: String,
    },
}

impl JournalError {
    /// What is wrong.
    fn headline(&self) -> String {
        match self {
            Self::Disk(error) => error.to_string(),
            Self::Missing { folder } => format!("there is no journal in `{}`", folder.display()),
            Self::Exists { folder } => format!("there is a journal in `{}` already", folder.display()),
            Self::InUse { folder, holder } => in_use(folder, holder.as_ref()),
            Self::Damaged { path, line, damage } => {
                format!("`{}` is damaged: {}", path.display(), damage.told(*line))
            }
            Self::UnknownFormat { path, found } => {
                let path = path.display();
                format!("`{path}` has format {found}, and this bayhand reads format {FORMAT}")
            }
            Self::UnknownEvent { line, why } => format!("the event in line {line} is not understood: {why}"),
            Self::NotAnEvent { why } => format!("this event cannot be recorded: {why}"),
            Self::TooLong { path } => {
                format!("`{}` would grow past {MOST_BYTES} bytes", path.display())
            }
            Self::NotWritten { may_be_there: false, cause, .. } => {
                format!("the last entry was not recorded: {cause}")
            }
            Self::NotWritten { cause, .. } => {
                format!("whether the last entry was recorded is seen when the run is gone on with: {cause}")
            }
            Self::ChangedOutside { path, .. } => {
                format!("another program has written to `{}`", path.display())
            }
            Self::Stopped { .. } => "nothing more is recorded after the failure before".to_owned(),
            Self::NotARun { text } => format!("`{text}` is not the name of a run"),
        }
    }

    /// What is safe.
    fn safe(&self) -> String {
        match self {
            Self::Damaged { line, damage, .. } => match damage.proved_before(*line) {
                0 => UNTOUCHED.to_owned(),
                1 => format!("{UNTOUCHED}, and line 1 is proved intact"),
                last => format!("{UNTOUCHED}, and lines 1 to {last} are proved intact"),
            },
            Self::NotAnEvent { .. } | Self::TooLong { .. } => "everything recorded before is safe".to_owned(),
            Self::NotWritten { last: 0, .. } | Self::Stopped { last: 0 } => {
                "nothing was recorded yet".to_owned()
            }
            Self::NotWritten { last, .. } | Self::Stopped { last } | Self::ChangedOutside { last, .. } => {
                format!("everything up to entry {last} was recorded")
            }
            _ => UNTOUCHED.to_owned(),
        }
    }

    /// What the person can do.
    fn way_out(&self) -> String {
        let text = match self {
            Self::Disk(error) => error.way_out(),
            Self::Missing { .. } | Self::NotARun { .. } => "`bayhand runs` lists the runs",
            Self::Exists { .. } => "go on with that run, or start another",
            Self::InUse { .. } => "go on in the window where it runs, or end it there first",
            Self::Damaged { .. } => {
                "put back a good copy of the file if there is one, else keep it as it is for the record \
                 and start a new run from the last step that is proved"
            }
            Self::UnknownFormat { .. } | Self::UnknownEvent { .. } => {
                "read it with the bayhand that wrote it, or a newer one"
            }
            Self::NotAnEvent { .. } => "give the answer in another form",
            Self::TooLong { .. } => "close this run and go on in a new one",
            Self::NotWritten { cause, .. } => {
                return format!("{}, then go on with the run", cause.way_out());
            }
            Self::ChangedOutside { .. } => {
                "keep other programs off this folder, then go on with the run: it is checked when it is opened"
            }
            Self::Stopped { .. } => "put right what failed, then go on with the run",
        };
        text.to_owned()
    }
}

fn in_use(folder: &Path, holder: Option<&Holder>) -> String {
    let folder = folder.display();
    let Some(Holder { pid, since }) = holder else {
        return format!("another process works on `{folder}`");
    };
    let since = since.strftime("%Y-%m-%d %H:%M");
    format!("process {pid} has been working on `{folder}` since {since}")
}

impl fmt::Display for JournalError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (headline, safe, way_out) = (self.headline(), self.safe(), self.way_out());
        write!(out, "{headline}; {safe}; {way_out}")
    }
}

impl std::error::Error for JournalError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Disk(error) | Self::NotWritten { cause: error, .. } => Some(error),
            _ => None,
        }
    }
}

impl From<DiskError> for JournalError {
    fn from(error: DiskError) -> Self {
        Self::Disk(error)
    }
}

/// Who works on a run.
#[derive(Clone, Debug, PartialEq)]
pub struct Holder {
    /// The number of the process.
    pub pid: u32,
    /// Since when.
    pub since: jiff::ZonedDateTime,
}
