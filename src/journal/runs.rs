//! The folder of all runs: finding them, and the texts that each was started with.

use std::path::{Path, PathBuf};

use super::{Contents, JOURNAL_FILE, Journal, JournalError, MOST_BYTES, RunId};
use crate::procedure::CheckedProcedure;
use crate::source::SourceText;
use crate::system::{DiskError, Entry, System, Why};

pub(super) const PROCEDURE_FILE: &str = "procedure.md";
pub(super) const VEHICLE_FILE: &str = "vehicle.toml";
const INDEX_FILE: &str = "closed-runs.txt";

/// The runs in a data folder.
#[derive(Clone, Debug)]
pub struct Runs {
    system: System,
    folder: PathBuf,
}

/// The exact texts that a run was started with. Later changes to the files they came from do not touch the run.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pinned {
    /// The procedure.
    pub procedure: String,
    /// The procedures that it links to, in the order in which links first lead to them.
    pub linked: Vec<String>,
    /// The vehicle sheet, if the procedure needs one.
    pub vehicle: Option<String>,
}

impl Pinned {
    /// The texts of a procedure, of those that it links to, and of the vehicle sheet.
    pub fn of(procedure: &CheckedProcedure, vehicle: Option<&SourceText>) -> Self {
        let linked = procedure.linked().iter();
        Self {
            procedure: procedure.text().text().to_owned(),
            linked: linked.map(|linked| linked.text.text().to_owned()).collect(),
            vehicle: vehicle.map(|vehicle| vehicle.text().to_owned()),
        }
    }

    /// The texts in the folder of a run.
    pub fn read(system: &System, folder: &Path) -> Result<Self, DiskError> {
        let read = |name: &str| system.disk().read_text(&folder.join(name), MOST_BYTES);
        let mut linked = Vec::new();
        while let Some(text) = if_there(read(&linked_file(linked.len())))? {
            linked.push(text);
        }
        Ok(Self { procedure: read(PROCEDURE_FILE)?, linked, vehicle: if_there(read(VEHICLE_FILE))? })
    }
}

/// A folder that should be a run and cannot be read as one.
#[derive(Debug)]
pub struct Broken {
    /// The name of the folder.
    pub name: String,
    /// What is wrong with it.
    pub error: JournalError,
}

impl Runs {
    /// The runs in this data folder; nothing is made until a run is started.
    pub fn new(system: &System, data_folder: &Path) -> Self {
        Self { system: system.clone(), folder: data_folder.join("runs") }
    }

    /// The folder of a run.
    pub fn folder(&self, id: &RunId) -> PathBuf {
        self.folder.join(id.as_str())
    }

    /// The door through which the folder is reached.
    pub(crate) const fn system(&self) -> &System {
        &self.system
    }

    /// The folder of them all.
    pub(super) fn all(&self) -> &Path {
        &self.folder
    }

    /// Opens a run to go on with it.
    pub fn open(&self, id: &RunId) -> Result<(Journal, Contents), JournalError> {
        Journal::open(&self.system, &self.folder(id))
    }

    /// Reads a run; another process may be working on it.
    pub fn read(&self, id: &RunId) -> Result<Contents, JournalError> {
        Journal::read(&self.system, &self.folder(id))
    }

    /// The texts that a run was started with.
    pub fn pinned(&self, id: &RunId) -> Result<Pinned, JournalError> {
        Ok(Pinned::read(&self.system, &self.folder(id))?)
    }

    /// The folders that are or should be runs, by name; none of them is read. Files, and folders whose names begin with a
    /// full stop, are left out.
    pub fn folders(&self) -> Result<Vec<String>, JournalError> {
        let mut folders = folders_of(if_there(self.system.disk().list(&self.folder))?.unwrap_or_default());
        folders.retain(|name| !is_hidden(name));
        Ok(folders)
    }

    /// How many bytes the journal of a run has.
    pub fn journal_length(&self, id: &RunId) -> Result<u64, JournalError> {
        Ok(self.system.disk().length(&self.folder(id).join(JOURNAL_FILE))?)
    }

    /// What is kept of closed runs at a glance; none where nothing is, or where it cannot be read.
    pub(crate) fn index(&self) -> Option<String> {
        self.system.disk().read_text(&self.folder.join(INDEX_FILE), MOST_BYTES).ok()
    }

    /// Keeps it. It can be made anew at any time, so that nothing is lost where it cannot be written.
    pub(crate) fn keep_index(&self, text: &str) {
        let _ = self.system.disk().replace(&self.folder.join(INDEX_FILE), text.as_bytes());
    }
}

/// The file in which a linked procedure is pinned.
pub(crate) fn linked_file(place: usize) -> String {
    format!("linked-{}.md", place + 1)
}

/// The names of the folders.
pub(super) fn folders_of(entries: Vec<Entry>) -> Vec<String> {
    entries.into_iter().filter(|entry| entry.is_folder).map(|folder| folder.name).collect()
}

/// Whether a folder is none of a run.
pub(super) fn is_hidden(name: &str) -> bool {
    name.starts_with('.')
}

pub(super) fn if_there<T>(outcome: Result<T, DiskError>) -> Result<Option<T>, DiskError> {
    match outcome {
        Err(error) if matches!(error.why, Why::NotThere) => Ok(None),
        outcome => outcome.map(Some),
    }
}
