//! The lines of the index: a closed run each.

use std::collections::BTreeMap;

use super::Summary;
use crate::journal::RunId;
use crate::session::StoredRun;

/// The first line of the index; one that begins otherwise is made anew.
const HEAD: &str = "closed runs, format 2: folder, bytes of the journal, the run's own name, summary";

/// A closed run in the index. Its summary is read only where it is asked for: whoever begins a run has no need of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The length of its journal: one of another length is another.
    pub(super) journal_bytes: u64,
    /// What its first entry calls it: a copy has another name on its folder.
    pub(super) named: String,
    /// The summary as written.
    written: String,
}

impl Entry {
    pub(super) fn of(run: &StoredRun) -> Option<Self> {
        let written = serde_json::to_string(&Summary::of(run)?).ok()?;
        let named = run.own_name().unwrap_or_default().to_owned();
        Some(Self { journal_bytes: run.contents.head.length, named, written })
    }

    /// What it says, where it can be read.
    pub fn summary(&self) -> Option<Summary> {
        serde_json::from_str(&self.written).ok()
    }
}

/// The lines by the name of the folder: a summary is JSON on one line, in which no tab stands bare.
pub(super) fn read(text: &str) -> BTreeMap<&str, Entry> {
    let mut lines = text.lines();
    if lines.next() != Some(HEAD) {
        return BTreeMap::new();
    }
    lines.filter_map(entry).collect()
}

fn entry(line: &str) -> Option<(&str, Entry)> {
    let mut fields = line.splitn(4, '\t');
    let (folder, bytes, named, written) = (fields.next()?, fields.next()?, fields.next()?, fields.next()?);
    let journal_bytes = bytes.parse().ok()?;
    Some((folder, Entry { journal_bytes, named: named.to_owned(), written: written.to_owned() }))
}

/// The whole index.
pub(super) fn written(closed: &BTreeMap<RunId, Entry>) -> String {
    let line = |(id, entry): (&RunId, &Entry)| {
        format!("{}\t{}\t{}\t{}\n", id.as_str(), entry.journal_bytes, entry.named, entry.written)
    };
    format!("{HEAD}\n{}", closed.iter().map(line).collect::<String>())
}
