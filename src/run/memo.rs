//! What was found out of steps while a run is looked at: as long as somebody looks, neither the run nor the time changes.

use std::cell::RefCell;
use std::collections::HashMap;

use crate::procedure::StepId;
use crate::run::work::tree::OccurrenceId;

/// What was found out of the steps of a run at one moment. Whoever asks several things of one view gives it one of
/// these, so that each step is looked at once and not for each question anew.
#[derive(Debug, Default)]
pub struct Memo(RefCell<HashMap<(OccurrenceId, Fact, StepId), bool>>);

/// What is found out of a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(in crate::run) enum Fact {
    NotApplicable,
    Worked,
    Complete,
}

impl Fact {
    /// How many there are.
    pub(in crate::run) const COUNT: usize = 3;
}

impl Memo {
    /// What is known, else what is worked out now. Nothing is held while it is: it may ask of other steps.
    pub(in crate::run) fn of(
        &self,
        (seen_from, fact, step): (OccurrenceId, Fact, StepId),
        work_out: impl FnOnce() -> bool,
    ) -> bool {
        let key = (seen_from, fact, step);
        let known = self.0.borrow().get(&key).copied();
        known.unwrap_or_else(|| {
            let found = work_out();
            self.0.borrow_mut().insert(key, found);
            found
        })
    }
}
