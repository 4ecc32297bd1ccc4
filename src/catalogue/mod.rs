//! All runs at a glance, without replaying those that are closed.
//!
//! What a listing needs of a closed run stands in an index beside the runs. It holds nothing that is not in them: an entry
//! whose journal has another length, or that is missing, is made anew from its run, and so is the whole index.

mod entry;
mod summary;

use std::collections::{BTreeMap, BTreeSet};

use crate::journal::{Broken, JournalError, NotBegun, RunId, Runs};
use crate::session::{NotOpened, StoredRun};
pub use entry::Entry;
pub use summary::Summary;

/// All runs.
#[derive(Debug, Default)]
pub struct Catalogue {
    /// Those that are closed, by name.
    pub closed: BTreeMap<RunId, Entry>,
    /// Those that are open, or cannot be opened, the oldest first.
    pub others: Vec<(RunId, Result<StoredRun, NotOpened>)>,
    /// Those whose journal cannot be read.
    pub broken: Vec<Broken>,
    /// Copies of runs that are there too: by name, with the name of the original. They count for nothing.
    pub copies: BTreeMap<RunId, RunId>,
}

impl Catalogue {
    /// Reads the index, and the runs that it does not know or that have another length than it says. What was found is
    /// kept in it; where that cannot be written, the next one finds it again.
    pub fn read(runs: &Runs) -> Result<Self, JournalError> {
        let text = runs.index().unwrap_or_default();
        let mut known = entry::read(&text);
        let indexed = known.len();
        known.retain(|folder, entry| {
            RunId::parse(folder).is_ok_and(|id| runs.journal_length(&id).ok() == Some(entry.journal_bytes))
        });
        Ok(Self::of(runs, (known, indexed), runs.folders()?))
    }

    /// The same for whoever begins or goes on with a run: what starts have left that were killed is cleared away, and
    /// told. Only what is open matters then, and a run that was closed once is not opened again, whatever became of its
    /// files since.
    pub fn at_start(runs: &Runs) -> Result<(Self, Vec<NotBegun>), JournalError> {
        let text = runs.index().unwrap_or_default();
        let known = entry::read(&text);
        let (folders, not_begun) = runs.sweep(|folder| known.contains_key(folder))?;
        let indexed = known.len();
        Ok((Self::of(runs, (known, indexed), folders), not_begun))
    }

    /// Clears away what starts have left that were killed, and tells it.
    pub fn sweep(runs: &Runs) -> Vec<NotBegun> {
        let text = runs.index().unwrap_or_default();
        let known = entry::read(&text);
        let swept = runs.sweep(|folder| known.contains_key(folder));
        swept.map(|(_, not_begun)| not_begun).unwrap_or_default()
    }

    /// From what holds of the index, which had so many entries.
    fn of(runs: &Runs, (mut known, indexed): (BTreeMap<&str, Entry>, usize), folders: Vec<String>) -> Self {
        let (mut found, mut is_new) = (Self::default(), false);
        for name in folders {
            let id = match RunId::parse(&name) {
                Ok(id) => id,
                Err(error) => {
                    found.broken.push(Broken { name, error });
                    continue;
                }
            };
            match known.remove(id.as_str()) {
                Some(entry) => {
                    found.closed.insert(id, entry);
                }
                None => is_new |= found.look_at(runs, id),
            }
        }
        if is_new || found.closed.len() != indexed {
            runs.keep_index(&entry::written(&found.closed));
        }
        found.set_copies_apart();
        found.others.sort_by_cached_key(|(id, run)| {
            let began = run.as_ref().ok().and_then(began);
            (began.is_none(), began, id.clone())
        });
        found
    }

    /// The open runs that can be read, the oldest first.
    pub fn open(&self) -> impl DoubleEndedIterator<Item = &StoredRun> {
        self.others.iter().filter_map(|(_, run)| run.as_ref().ok())
    }

    /// The closed runs in short, by name. What cannot be read in the index is read in its run.
    pub fn summaries(&self, runs: &Runs) -> Vec<(&RunId, Summary)> {
        let of_run = |id| StoredRun::read(runs, id).ok().as_ref().and_then(Summary::of);
        let one = |(id, entry): (_, &Entry)| Some((id, entry.summary().or_else(|| of_run(id))?));
        self.closed.iter().filter_map(one).collect()
    }

    /// Reads every run that counts, one after the other by name, and names those that cannot be read, with the reasons.
    pub fn each(self, runs: &Runs, mut visit: impl FnMut(StoredRun)) -> Vec<(String, String)> {
        let closed = self.closed.into_keys().map(|id| (id, None));
        let mut all: Vec<_> =
            closed.chain(self.others.into_iter().map(|(id, run)| (id, Some(run)))).collect();
        all.sort_by(|(one, _), (other, _)| one.cmp(other));
        let mut unread: Vec<_> =
            self.broken.into_iter().map(|broken| (broken.name, broken.error.to_string())).collect();
        for (id, run) in all {
            match run.unwrap_or_else(|| StoredRun::read(runs, &id)) {
                Ok(run) => visit(run),
                Err(error) => unread.push((id.as_str().to_owned(), error.to_string())),
            }
        }
        unread
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

    /// A run whose own first entry gives it the name of another that is there is a copy of that one. One that was only
    /// renamed is not.
    fn set_copies_apart(&mut self) {
        let closed = self.closed.iter().map(|(id, entry)| (id, entry.named.as_str()));
        let open = self.others.iter().filter_map(|(id, run)| Some((id, run.as_ref().ok()?.own_name()?)));
        let all: BTreeSet<&str> =
            self.closed.keys().chain(self.others.iter().map(|(id, _)| id)).map(RunId::as_str).collect();
        let copies = closed.chain(open).filter(|(id, named)| id.as_str() != *named && all.contains(named));
        let copies = copies.filter_map(|(id, named)| Some((id.clone(), RunId::parse(named).ok()?)));
        self.copies = copies.collect();
        self.closed.retain(|id, _| !self.copies.contains_key(id));
        self.others.retain(|(id, _)| !self.copies.contains_key(id));
    }
}

/// Without events it has no time yet and was started last.
fn began(run: &StoredRun) -> Option<jiff::Timestamp> {
    run.events.first().map(|(_, stamp)| stamp.at.timestamp())
}
