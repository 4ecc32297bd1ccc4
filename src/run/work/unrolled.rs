//! The work of a run as it was unrolled: every occurrence of every step, once, in the order of the text and of the
//! passes. Whoever tells of all steps goes by it.

use crate::procedure::{Step, StepId};
use crate::run::stamp::Stamp;
use crate::run::step::status::Status;
use crate::run::view::View;
use crate::run::work::part::{Address, Part};
use crate::run::work::tree::OccurrenceId;

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

    /// The present occurrence of a step.
    pub fn present_at(self, step: &'run Step) -> StepAt<'run> {
        let part = Part::Step(step.id);
        let within = part.around(&self.book.procedure).and_then(|around| self.find(around));
        StepAt { step, at: self.find(part), within: within.unwrap_or_default() }
    }

    /// The run as it is seen from where an entry belongs: the run itself, where that is a present occurrence.
    #[must_use]
    pub fn at_entry(self, stamp: &Stamp) -> Self {
        let at = stamp.place.as_ref().and_then(|place| self.state.tree.find(&self.book.procedure, place));
        let past = at.filter(|at| self.state.derived.present(self.state.tree.get(*at).part) != Some(*at));
        self.inside(past.unwrap_or(OccurrenceId::RUN))
    }

    /// The address of one; where nothing was said at it yet, the one that it comes to have.
    pub fn address(self, at: StepAt<'_>) -> Address {
        match at.at {
            Some(at) => self.state.tree.place(at),
            None => self.inside(at.within).place_of(Part::Step(at.step.id)),
        }
    }

    /// The state of one, as everybody shows it; `current` is the step that is asked about now.
    pub fn state_of(self, at: StepAt<'_>, current: Option<StepId>) -> Status {
        self.inside(at.from()).status(at.step, current.filter(|_| self.is_present(at)))
    }

    /// Whether one is the present one of its step, not one in something that was set aside.
    pub fn is_present(self, at: StepAt<'_>) -> bool {
        let around = self.state.tree.get(at.within).part;
        self.find(Part::Step(at.step.id)) == at.at && self.state.derived.present(around) == Some(at.within)
    }

    fn unroll(self, step: StepId, within: OccurrenceId, steps: &mut Vec<StepAt<'run>>) {
        let Some(step) = self.book.procedure.step(step) else { return };
        for at in self.turns_of(within, Part::Step(step.id)) {
            steps.push(StepAt { step, at, within });
            let parts = step.groups.iter().flat_map(|group| &group.steps);
            parts.for_each(|part| self.unroll(*part, at.unwrap_or(within), steps));
        }
    }

    /// The turns of a part; one of which nothing was said yet where there is none, or where a further one is to be made; at the end of the run also one that was set aside and not begun since.
    fn turns_of(self, within: OccurrenceId, part: Part) -> Vec<Option<OccurrenceId>> {
        let (tree, derived) = (&self.state.tree, &self.state.derived);
        let mut turns: Vec<Option<OccurrenceId>> =
            tree.turns(within, part).iter().copied().map(Some).collect();
        let is_present = derived.present(tree.get(within).part) == Some(within);
        let is_open = self.state.closed.is_none()
            || turns.last().copied().flatten().is_some_and(|last| tree.is_set_aside(last));
        if turns.is_empty() || (is_present && is_open && derived.present(part).is_none()) {
            turns.push(None);
        }
        turns
    }
}
