//! What follows from all that was said: which occurrences are the present ones, which passes there are, what no longer agrees. One function makes it; nothing else writes it, everybody reads it.

use std::collections::BTreeMap;

use crate::procedure::{Name, StepId};
use crate::run::passes::round::Round;
use crate::run::work::part::Part;
use crate::run::work::tree::OccurrenceId;

/// What follows from all that was said.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Derived {
    pub(super) sections: Vec<Option<OccurrenceId>>,
    pub(super) steps: Vec<Option<OccurrenceId>>,
    pub(super) rounds: BTreeMap<Name, Round>,
    /// What no longer agrees since something was corrected, and is to be settled.
    pub unsettled: Vec<Unsettled>,
}

impl Derived {
    /// The present occurrence of a part; none where nothing was said at it yet.
    pub fn present(&self, part: Part) -> Option<OccurrenceId> {
        match part {
            Part::Run => Some(OccurrenceId::RUN),
            Part::Section(section) => self.sections.get(section.0).copied().flatten(),
            Part::Step(step) => self.steps.get(step.0).copied().flatten(),
        }
    }

    /// The present passes of a repeat.
    pub fn round(&self, repeat: &Name) -> Option<&Round> {
        self.rounds.get(repeat)
    }

    /// What is known of these passes has to be worked out anew.
    pub(in crate::run) fn forget(&mut self, is_meant: impl Fn(&Name) -> bool) {
        self.rounds.retain(|repeat, _| !is_meant(repeat));
    }
}

/// A step that no longer agrees with what it was done under.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unsettled {
    /// The occurrence from which it is seen: the run, or a pass that has ended.
    pub within: OccurrenceId,
    /// The step.
    pub step: StepId,
}
