//! What goes wrong on a disk that fails when told to.

use std::collections::BTreeMap;
use std::path::PathBuf;

/// What goes wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// So many bytes can still be written, then the disk is full. What fits of a write is written.
    FullAfter(u64),
    /// Of the next addition to a log only so many bytes arrive, then it fails.
    TornWrite(usize),
    /// The next sync of a log fails, and those after it succeed: what some kernels do.
    SyncFails,
    /// No log can be cut.
    CutFails,
    /// After so many more operations that change something the next one fails, and those after it succeed.
    Once(u64, HowFar),
    /// The same, and none after it succeeds: the disk is gone, or the process.
    FromThenOn(u64, HowFar),
}

/// How far an operation comes that fails.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HowFar {
    /// Nothing of it is done.
    Nothing,
    /// Half of the bytes arrive; of a whole file, under the name that it has while it is written.
    Half,
    /// All of it is done, and only that it is durable cannot be said.
    All,
}

#[derive(Debug, Default)]
pub(super) struct Faults {
    /// The length of each log at its last sync.
    pub(super) durable: BTreeMap<PathBuf, u64>,
    pub(super) space: Option<u64>,
    pub(super) torn: Option<usize>,
    pub(super) sync_fails: bool,
    pub(super) cut_fails: bool,
    /// How many operations changed something, or tried to.
    pub(super) changes: u64,
    /// The number of the one that fails, how far it comes, and whether those after it fail too.
    pub(super) at: Option<(u64, HowFar, bool)>,
}

impl Faults {
    /// How many of these bytes still fit, and takes the space.
    pub(super) fn take_space(&mut self, wanted: usize) -> usize {
        let Some(space) = self.space else { return wanted };
        let fits = usize::try_from(space).map_or(wanted, |space| space.min(wanted));
        self.space = Some(space.saturating_sub(fits as u64));
        fits
    }

    /// Counts an operation that changes something: how far it comes, if it is one that fails.
    pub(super) fn next_change(&mut self) -> Option<HowFar> {
        let number = self.changes;
        self.changes += 1;
        let (at, how_far, goes_on) = self.at?;
        match number {
            _ if number == at => Some(how_far),
            _ if number > at && goes_on => Some(HowFar::Nothing),
            _ => None,
        }
    }
}
