//! What stands between the steps, wherever it stands: where a picture may be.

use super::{CheckedProcedure, Passage};

impl CheckedProcedure {
    /// Everything that is shown and is not a step, in the order of the text within each part of it.
    pub fn passages(&self) -> impl Iterator<Item = &Passage> {
        let sections = self.sections.iter().flat_map(|section| &section.after);
        let steps = self.steps.iter().flat_map(|step| step.before.iter().chain(&step.passages));
        self.introduction.iter().chain(steps).chain(sections)
    }

    /// The same, to be changed.
    pub(super) fn passages_mut(&mut self) -> impl Iterator<Item = &mut Passage> {
        let sections = self.sections.iter_mut().flat_map(|section| section.after.iter_mut());
        let steps =
            self.steps.iter_mut().flat_map(|step| step.before.iter_mut().chain(step.passages.iter_mut()));
        self.introduction.iter_mut().chain(steps).chain(sections)
    }
}
