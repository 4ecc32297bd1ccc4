//! All runs at a glance, without replaying those that are closed.
//!
//! What a listing needs of a closed run stands in an index beside the runs. It holds nothing that is not in them: an entry
//! whose journal has another length, or that is missing, is made anew from its run, and so is the whole index.

mod summary;

use std::collections::BTreeMap;

use crate::journal::{Broken, JournalError, RunId, Runs};
use crate::session::{NotOpened, StoredRun};
pub use summary::Summary;

/// The first line of the index; one that begins otherwise is made anew.
const HEAD: &str = "closed runs, format 1: name, bytes of the journal, summary";

/// All runs.
#[derive(Debug, Default)]
pub struct Catalogue {
    /// Those that are closed, by name.
    pub closed: BTreeMap<RunId, Entry>,
    /// Those that are open, or cannot be opened, the oldest first.
    pub others: Vec<(RunId, Result<StoredRun, NotOpened>)>,
    /// Those whose journal cannot be read.
    pub broken: Vec<Broken>,
}

/// A closed run in the index. Its summary is read only where it is asked for: whoever begins a run has no need of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The length of its journal: one of another length is another.
    journal_bytes: u64,
    /// The summary as written.
    written: String,
}

impl Entry {
    fn of(run: &StoredRun) -> Option<Self> {
        let written = serde_json::to_string(&Summary::of(run)?).ok()?;
        Some(Self { journal_bytes: run.contents.head.length, written })
    }
}

impl Catalogue {
    /// Reads the index, and the runs that it does not know. What was found is kept in it; where that cannot be written,
    /// the next one finds it again.
    pub fn read(runs: &Runs) -> Result<Self, JournalError> {
        let text = runs.index().unwrap_or_default();
        let mut known = index(&text);
        let before = known.len();
        let (mut found, mut is_new) = (Self::default(), false);
        for id in runs.names()? {
            let entry = known.remove(id.as_str());
            let length = entry.as_ref().and_then(|_| runs.journal_length(&id).ok());
            match entry.filter(|(bytes, _)| Some(*bytes) == length) {
                Some((journal_bytes, written)) => {
                    found.closed.insert(id, Entry { journal_bytes, written: written.to_owned() });
                }
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

    /// The closed runs in short, by name. What cannot be read in the index is read in its run.
    pub fn summaries(&self, runs: &Runs) -> Vec<(&RunId, Summary)> {
        let of_run = |id| StoredRun::read(runs, id).ok().as_ref().and_then(Summary::of);
        let one = |(id, entry): (_, &Entry)| {
            Some((id, serde_json::from_str(&entry.written).ok().or_else(|| of_run(id))?))
        };
        self.closed.iter().filter_map(one).collect()
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
        if let Some(entry) = run.as_ref().ok().and_then(Entry::of) {
            self.closed.insert(id, entry);
            return true;
        }
        self.others.push((id, run));
        false
    }

    fn keep(&self, runs: &Runs) {
        let line = |(id, entry): (&RunId, &Entry)| {
            format!("{}\t{}\t{}\n", id.as_str(), entry.journal_bytes, entry.written)
        };
        runs.keep_index(&format!("{HEAD}\n{}", self.closed.iter().map(line).collect::<String>()));
    }
}

/// The lines of the index by the name of the run: a summary is JSON on one line, in which no tab stands bare.
fn index(text: &str) -> BTreeMap<&str, (u64, &str)> {
    let mut lines = text.lines();
    if lines.next() != Some(HEAD) {
        return BTreeMap::new();
    }
    lines.filter_map(entry).collect()
}

fn entry(line: &str) -> Option<(&str, (u64, &str))> {
    let (name, rest) = line.split_once('\t')?;
    let (bytes, written) = rest.split_once('\t')?;
    Some((name, (bytes.parse().ok()?, written)))
}

/// Without events it has no time yet and was started last.
fn began(run: &StoredRun) -> Option<jiff::Timestamp> {
    run.events.first().map(|(_, stamp)| stamp.at.timestamp())
}
