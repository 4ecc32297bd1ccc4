//! What is known of a run: only what was said. Everything else is worked out from it, in one place: [`crate::run::Derived`].

use std::collections::BTreeMap;

use crate::procedure::{Name, StepId};
use crate::quantity::Entry;
use crate::run::answered::Leave;
use crate::run::loose::facts::Loose;
use crate::run::particulars::facts::Particulars;
use crate::run::people::facts::PeopleFacts;
use crate::run::sitting::facts::Interruption;
use crate::run::stamp::{Stamp, Start};
use crate::run::work::derived::Derived;
use crate::run::work::deviation::Deviation;
use crate::run::work::facts::Attempts;
use crate::run::work::kept::Kept;
use crate::run::work::taken::Given;
use crate::run::work::times::Times;
use crate::run::work::tree::{Occurrence, OccurrenceId, Tree};

/// Everything that was said so far, at the occurrence where it belongs, and what follows from it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct State {
    /// How it began.
    pub start: Option<(Start, Stamp)>,
    /// What was said at each occurrence of the work.
    pub tree: Tree,
    /// What follows from all that was said.
    pub derived: Derived,
    /// Who had which role when.
    pub people: PeopleFacts,
    /// The odometer at the start.
    pub odometer: Option<Entry>,
    /// Vehicle values that the sheet did not give.
    pub vehicle: BTreeMap<Name, Given>,
    /// Where each reading was entered, in order: an index of the tree.
    pub read_at: BTreeMap<Name, Vec<OccurrenceId>>,
    /// Where something was said at each hold point, in order: an index of the tree.
    pub held_at: BTreeMap<Name, Vec<OccurrenceId>>,
    /// Where each hazard was acknowledged, with the entry, in order: an index of the tree.
    pub acknowledged_at: BTreeMap<Name, Vec<(OccurrenceId, u64)>>,
    /// The stage that the tool of a group of fasteners was last set for, in whatever pass: it stays set.
    pub tool_set: BTreeMap<Name, usize>,
    /// Where work was done last.
    pub last_work: Option<(OccurrenceId, Stamp)>,
    /// The last entry that changes what was entered before.
    pub revised: Option<Revision>,
    /// What hold points lapse with, in order.
    pub lapses: Vec<LapsePoint>,
    /// What was said before, between and after the work.
    pub interruption: Interruption,
    /// The step picked among those that may come in any order.
    pub picked: Option<StepId>,
    /// Departures, numbered from 1 by their place.
    pub deviations: Vec<Deviation>,
    /// What was said of loose ends.
    pub loose: Loose,
    /// How readings were taken.
    pub particulars: Particulars,
    /// Remarks.
    pub notes: Vec<(Stamp, String)>,
    /// Where this sitting stands.
    pub sitting: Sitting,
    /// How the earlier sitting ended, if by a person's word.
    pub left: Option<Left>,
    /// When it was closed.
    pub closed: Option<Stamp>,
    /// What the times of the entries say.
    pub times: Times,
    /// The newest event.
    pub last: Option<Stamp>,
    /// What was found out of steps and still holds.
    pub(super) kept: Kept,
}

/// An entry that changes what was entered before: all that rests on it is worked out anew.
#[derive(Clone, Debug, PartialEq)]
pub struct Revision {
    /// The entry.
    pub seq: u64,
    /// Why, by a person's word.
    pub reason: String,
}

/// Something with which hold points lapse.
#[derive(Clone, Debug, PartialEq)]
pub struct LapsePoint {
    /// The entry.
    pub seq: u64,
    /// Which hold points lapse with it.
    pub of: LapseOf,
    /// Why, in words.
    pub why: String,
}

/// Which hold points lapse.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LapseOf {
    /// All: the job was stopped.
    All,
    /// Those that lapse when the run is taken up again.
    OnResume,
    /// Those that lapse when something is disturbed.
    WhenDisturbed,
    /// The one that was touched.
    Touched(Name),
    /// Those that lapse when people change.
    OnPeople,
    /// Those after a step that is not any more as it was: they vouched for it.
    After(StepId),
}

/// Where a sitting stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sitting {
    /// Work goes on.
    #[default]
    Working,
    /// The run was taken up again, the brief not yet accepted.
    Briefing,
    /// Suspended or stopped.
    Resting,
}

/// How and why a sitting ended.
#[derive(Clone, Debug, PartialEq)]
pub struct Left {
    /// Planned or not.
    pub how: Leave,
    /// Why.
    pub reason: String,
    /// The state that things were left in.
    pub state: String,
    /// What comes first next time, where somebody said so.
    pub first: Option<String>,
    /// When.
    pub stamp: Stamp,
}

impl State {
    /// What was entered for a reading, pass by pass, in the order in which the passes came.
    pub fn attempts_at(&self, reading: &Name) -> impl Iterator<Item = (OccurrenceId, &Attempts)> {
        let at = self.read_at.get(reading).map(Vec::as_slice).unwrap_or_default();
        at.iter().filter_map(|id| Some((*id, self.tree.get(*id).said.reading(reading)?)))
    }

    /// How often a reading was entered, corrections included.
    pub fn attempts(&self, reading: &Name) -> usize {
        self.attempts_at(reading).map(|(_, attempts)| attempts.taken.len()).sum()
    }

    /// The occurrence of what was said at an entry of a reading.
    pub fn occurrence_of(&self, reading: &Name, entry: u64) -> Option<OccurrenceId> {
        let is_at = |attempts: &Attempts| attempts.taken.iter().any(|taken| taken.stamp.seq == entry);
        self.attempts_at(reading).find(|(_, attempts)| is_at(attempts)).map(|(id, _)| id)
    }

    /// Whether the newest entry changes what was entered before.
    pub(super) fn is_just_revised(&self) -> bool {
        let revision = self.revised.as_ref().zip(self.last.as_ref());
        revision.is_some_and(|(revision, last)| revision.seq == last.seq)
    }

    /// An occurrence.
    pub fn at(&self, id: OccurrenceId) -> &Occurrence {
        self.tree.get(id)
    }

    /// The deviations without a disposition, by their place.
    pub fn undisposed(&self) -> impl Iterator<Item = (usize, &Deviation)> {
        self.deviations.iter().enumerate().filter(|(_, deviation)| deviation.disposition.is_none())
    }
}
