//! The work of a run as it was unrolled: every occurrence of every step, once, in the order of the text and of the
//! passes. Whoever tells of all steps goes by it.

use super::view::View;
use super::work::{OccurrenceId, Part};
use crate::procedure::{Step, StepId};

/// One occurrence of a step, or a step of which nothing was said there yet.
#[derive(Clone, Copy, Debug)]
pub struct StepAt<'run> {
    /// The step.
    pub step: &'run Step,
    /// The occurrence; none where nothing was said at it.
    pub at: Option<OccurrenceId>,
    /// The occurrence that it belongs to.
    pub within: OccurrenceId,
}

impl StepAt<'_> {
    /// From where it is seen.
    pub fn from(&self) -> OccurrenceId {
        self.at.unwrap_or(self.within)
    }
}

impl<'run> View<'run> {
    /// Every occurrence of every step.
    pub fn unrolled(self) -> Vec<StepAt<'run>> {
        let mut steps = Vec::new();
        let procedure = &self.book.procedure;
        for section in (0..procedure.sections().len()).map(crate::procedure::SectionId) {
            let groups =
                procedure.section(section).map(|section| section.groups.as_slice()).unwrap_or_default();
            for turn in self.turns_of(OccurrenceId::RUN, Part::Section(section)) {
                let within = turn.unwrap_or(OccurrenceId::RUN);
                let tops = groups.iter().flat_map(|group| &group.steps);
                tops.for_each(|step| self.unroll(*step, within, &mut steps));
            }
        }
        steps
    }

    fn unroll(self, step: StepId, within: OccurrenceId, steps: &mut Vec<StepAt<'run>>) {
        let Some(step) = self.book.procedure.step(step) else { return };
        for at in self.turns_of(within, Part::Step(step.id)) {
            steps.push(StepAt { step, at, within });
            let parts = step.groups.iter().flat_map(|group| &group.steps);
            parts.for_each(|part| self.unroll(*part, at.unwrap_or(within), steps));
        }
    }

    /// The turns of a part; one of which nothing was said yet where there is none, or where a further one is to be made.
    fn turns_of(self, within: OccurrenceId, part: Part) -> Vec<Option<OccurrenceId>> {
        let (tree, derived) = (&self.state.tree, &self.state.derived);
        let mut turns: Vec<Option<OccurrenceId>> =
            tree.turns(within, part).iter().copied().map(Some).collect();
        let is_present = derived.present(tree.get(within).part) == Some(within);
        let is_to_come = is_present && self.state.closed.is_none() && derived.present(part).is_none();
        if turns.is_empty() || is_to_come {
            turns.push(None);
        }
        turns
    }
}
