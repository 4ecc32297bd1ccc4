//! All runs at a glance, without replaying those that are closed.
//!
//! What a listing needs of a closed run stands in an index beside the runs. It holds nothing that is not in them: an entry
//! whose journal has another length, or that is missing, is made anew from its run, and so is the whole index.

mod summary;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::journal::{Broken, JournalError, RunId, Runs};
use crate::session::{NotOpened, StoredRun};
pub use summary::Summary;

/// The version of the index; one of another version is made anew.
const FORMAT: u32 = 1;

/// All runs.
#[derive(Debug, Default)]
pub struct Catalogue {
    /// Those that are closed, by name.
    pub closed: BTreeMap<RunId, Summary>,
    /// Those that are open, or cannot be opened, the oldest first.
    pub others: Vec<(RunId, Result<StoredRun, NotOpened>)>,
    /// Those whose journal cannot be read.
    pub broken: Vec<Broken>,
}

#[derive(Serialize, Deserialize)]
struct Index {
    format: u32,
    runs: BTreeMap<String, Summary>,
}

impl Catalogue {
    /// Reads the index, and the runs that it does not know. What was found is kept in it; where that cannot be written,
    /// the next one finds it again.
    pub fn read(runs: &Runs) -> Result<Self, JournalError> {
        let mut known = index(runs);
        let before = known.len();
        let (mut found, mut is_new) = (Self::default(), false);
        for id in runs.names()? {
            let entry = known.remove(id.as_str());
            let length = runs.journal_length(&id).ok();
            match entry.filter(|entry| Some(entry.journal_bytes) == length) {
                Some(entry) => drop(found.closed.insert(id, entry)),
                None => is_new |= found.look_at(runs, id),
            }
        }
        if is_new || found.closed.len() != before {
            found.keep(runs);
        }
        found.others.sort_by_cached_key(|(id, run)| {
            let began = run.as_ref().ok().and_then(began);
            (began.is_none(), began, id.clone())
        });
        Ok(found)
    }

    /// The open runs that can be read, the oldest first.
    pub fn open(&self) -> impl DoubleEndedIterator<Item = &StoredRun> {
        self.others.iter().filter_map(|(_, run)| run.as_ref().ok())
    }

    /// Puts a run where it belongs; whether it is one for the index.
    fn look_at(&mut self, runs: &Runs, id: RunId) -> bool {
        let contents = match runs.read(&id) {
            Ok(contents) => contents,
            Err(error) => {
                self.broken.push(Broken { name: id.as_str().to_owned(), error });
                return false;
            }
        };
        let run = StoredRun::of(runs, &id, contents);
        if let Some(summary) = run.as_ref().ok().and_then(Summary::of) {
            self.closed.insert(id, summary);
            return true;
        }
        self.others.push((id, run));
        false
    }

    fn keep(&self, runs: &Runs) {
        let by_name = |(id, summary): (&RunId, &Summary)| (id.as_str().to_owned(), summary.clone());
        let index = Index { format: FORMAT, runs: self.closed.iter().map(by_name).collect() };
        if let Ok(text) = serde_json::to_string(&index) {
            runs.keep_index(&text);
        }
    }
}

fn index(runs: &Runs) -> BTreeMap<String, Summary> {
    let read = runs.index().and_then(|text| serde_json::from_str::<Index>(&text).ok());
    read.filter(|index| index.format == FORMAT).map(|index| index.runs).unwrap_or_default()
}

/// Without events it has no time yet and was started last.
fn began(run: &StoredRun) -> Option<jiff::Timestamp> {
    run.events.first().map(|(_, stamp)| stamp.at.timestamp())
}
