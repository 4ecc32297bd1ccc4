//! Which steps rest on which, as far as the procedure alone tells it: as long as nothing is said there, what was found out
//! of a step stays so.

use std::collections::BTreeSet;

use crate::procedure::StepId;

/// Which steps rest on which.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(in crate::run) struct Steady {
    is_steady: Vec<bool>,
    /// By step: those that rest on what is said at it.
    resting: Vec<Vec<StepId>>,
}

impl Steady {
    /// From what each step rests on; none where the procedure alone does not tell it.
    pub(in crate::run) fn of(rests_on: &[Option<BTreeSet<StepId>>]) -> Self {
        let mut resting = vec![Vec::new(); rests_on.len()];
        for (step, others) in rests_on.iter().enumerate() {
            for other in others.iter().flatten() {
                resting[other.0].push(StepId(step));
            }
        }
        Self { is_steady: rests_on.iter().map(Option::is_some).collect(), resting }
    }

    /// How many steps the procedure has.
    pub(in crate::run) fn steps(&self) -> usize {
        self.is_steady.len()
    }

    /// Whether what is found out of a step stays so until something is said at a step that it rests on.
    pub(in crate::run) fn is_steady(&self, step: StepId) -> bool {
        self.is_steady.get(step.0).copied().unwrap_or_default()
    }

    /// The steady steps that rest on what is said at a step.
    pub(in crate::run) fn resting_on(&self, step: StepId) -> &[StepId] {
        self.resting.get(step.0).map(Vec::as_slice).unwrap_or_default()
    }
}
