//! What lies in the folder of a run beside its journal: the sealed record and the kept files, held against the journal.

use std::fmt;
use std::path::{Path, PathBuf};

use crate::record::model::Record;
use crate::record::{self, Attachment};
use crate::session::{FILES_FOLDER, LARGEST};
use crate::system::{System, Why};

/// The record as data, in the folder of its run.
pub(super) const DATA: &str = "record.json";
/// The record as text, beside it.
pub(super) const TEXT: &str = "record.txt";
/// The text that is kept is set this wide.
pub(super) const KEPT_WIDTH: usize = 80;
/// Far beyond any record.
pub(super) const MOST: u64 = 256 << 20;

/// Something that shows that a file is not what it was.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The file.
    pub file: PathBuf,
    /// What is wrong with it.
    pub what: String,
}

impl Fault {
    pub(super) fn of(file: &Path, what: impl fmt::Display) -> Self {
        Self { file: file.to_path_buf(), what: what.to_string() }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}: {}", self.file.display(), self.what)
    }
}

/// The kept files that are gone or others, each once.
pub(super) fn attachment_faults(system: &System, folder: &Path, attachments: &[Attachment]) -> Vec<Fault> {
    let faults = attachments.iter().filter_map(|attachment| {
        let path = place_of(folder, attachment);
        let bytes = path.as_ref().and_then(|path| system.disk().read(path, LARGEST).ok());
        let finding = attachment.finding(bytes.as_deref())?;
        Some(Fault::of(&path.unwrap_or_else(|| folder.join(FILES_FOLDER)), finding))
    });
    faults.collect()
}

/// Whether anything of the name of a kept file lies beside a record.
pub(super) fn has_attachments(system: &System, folder: &Path) -> bool {
    system.disk().list(&folder.join(FILES_FOLDER)).is_ok()
}

fn place_of(folder: &Path, attachment: &Attachment) -> Option<PathBuf> {
    Some(folder.join(FILES_FOLDER).join(attachment.stored_as()?))
}

/// That the sealed record in a folder holds more entries than the journal beside it.
pub(super) fn cut_off(system: &System, folder: &Path, entries: usize) -> Option<Fault> {
    let path = folder.join(DATA);
    let json = system.disk().read_text(&path, MOST).ok()?;
    let sealed = record::entries_of(&json).filter(|sealed| *sealed > entries)?;
    Some(Fault::of(
        &path,
        format!(
            "the sealed record holds {sealed} entries, and the journal beside it only {entries}: its end is gone. The \
             record has all its lines; `bayhand verify {}` says whether they are sound",
            path.display()
        ),
    ))
}

/// What is kept of the record of a run and is not what its journal gives.
pub(super) fn record_faults(system: &System, folder: &Path, record: &Record) -> Vec<Fault> {
    if let Some(cut_off) = cut_off(system, folder, record.journal.len()) {
        return vec![cut_off];
    }
    let unlike = |name: &str, expected: String| {
        let path = folder.join(name);
        match system.disk().read_text(&path, MOST) {
            Ok(found) if found == expected => None,
            Ok(_) => Some(Fault::of(&path, "is not what the journal of the run gives; it was left as it is")),
            Err(error) if matches!(error.why, Why::NotThere) => None,
            Err(error) => Some(Fault::of(&path, error)),
        }
    };
    let data = unlike(DATA, record::to_json(record));
    // Another version may set the page in other words: what is sealed is the data.
    let is_ours = record.engine == env!("CARGO_PKG_VERSION");
    let text = is_ours.then(|| unlike(TEXT, record::text::render(record, KEPT_WIDTH))).flatten();
    data.into_iter().chain(text).collect()
}
