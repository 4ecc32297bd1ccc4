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
}

#[derive(Debug, Default)]
pub(super) struct Faults {
    /// The length of each log at its last sync.
    pub(super) durable: BTreeMap<PathBuf, u64>,
    pub(super) space: Option<u64>,
    pub(super) torn: Option<usize>,
    pub(super) sync_fails: bool,
    pub(super) cut_fails: bool,
}

impl Faults {
    /// How many of these bytes still fit, and takes the space.
    pub(super) fn take_space(&mut self, wanted: usize) -> usize {
        let Some(space) = self.space else { return wanted };
        let fits = usize::try_from(space).map_or(wanted, |space| space.min(wanted));
        self.space = Some(space.saturating_sub(fits as u64));
        fits
    }
}
