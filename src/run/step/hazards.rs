//! Hazards: which stand over a step, which were read, which demand a word before anything is done.

use crate::procedure::{Name, Passage, Piece, SectionId, Signal, Step, StepId};
use crate::run::prompt::Ask;
use crate::run::view::View;
use crate::run::work::facts::Said;

impl<'run> View<'run> {
    pub(in crate::run) fn ask_hazard(self, step: &Step) -> Option<Ask> {
        let over = self.hazards_over(step).into_iter();
        let unseen = over.filter(|hazard| !self.is_acknowledged_in(step.section, hazard));
        let own = step.hazards.iter().filter(|hazard| !self.is_acknowledged(step.id, hazard));
        unseen
            .chain(own)
            .find(|hazard| self.demands_a_word(hazard))
            .map(|hazard| Ask::Acknowledge(hazard.clone()))
    }

    /// The hazards that stand over a step: those of the heading of its section, and those that a paragraph of the section
    /// names before it, whether or not the step applies that it stands with.
    pub fn hazards_over(self, step: &Step) -> Vec<&'run Name> {
        let procedure = &self.book.procedure;
        let heading = procedure.section(step.section).into_iter().flat_map(|section| &section.hazards);
        let before = procedure.steps_in(step.section).take_while(|other| other.id < step.id);
        let before = before.filter(|other| self.is_not_applicable(other)).flat_map(|other| &other.before);
        let pieces = before.flat_map(|passage| &passage.text);
        let named = pieces.filter_map(|piece| match piece {
            Piece::Mention(name) => procedure.hazards().names().find(|hazard| **hazard == name.value),
            Piece::Text(_) => None,
        });
        heading.chain(named).collect()
    }

    /// The paragraphs that are read before a step: its own, and those of steps right before it that do not apply.
    pub fn read_before(self, step: &'run Step) -> Vec<&'run Passage> {
        let steps = self.book.procedure.steps().get(..step.id.0).unwrap_or_default().iter().rev();
        let skipped = steps
            .filter(|other| !self.book.is_within(step.id, other.id))
            .take_while(|other| other.section == step.section && self.is_not_applicable(other));
        let mut passages: Vec<&Passage> = skipped.flat_map(|other| other.before.iter().rev()).collect();
        passages.reverse();
        passages.extend(&step.before);
        passages
    }

    fn is_acknowledged_in(self, section: SectionId, hazard: &Name) -> bool {
        self.book.procedure.steps_in(section).any(|step| self.is_acknowledged(step.id, hazard))
    }

    /// Whether a hazard that stands over a whole section was read in it: acknowledged, or, where nobody has to say a
    /// word, shown with a step that was begun.
    pub fn is_read_in_section(self, section: SectionId, hazard: &Name) -> bool {
        if self.demands_a_word(hazard) {
            return self.is_acknowledged_in(section, hazard);
        }
        self.book.procedure.steps_in(section).any(|step| self.is_begun(step))
    }

    /// Whether a hazard was read and understood at a step, in this sitting.
    pub fn is_acknowledged(self, step: StepId, hazard: &Name) -> bool {
        let resumed = self.state.particulars.resumed.as_ref().map_or(0, |resumed| resumed.seq);
        let said = Said::last(&self.said(step).acknowledged, hazard).copied();
        let reopened = self.book.procedure.step(step).and_then(|step| self.reopened(step));
        said.is_some_and(|said| said > resumed.max(reopened.unwrap_or_default()))
    }

    pub(in crate::run) fn demands_a_word(self, hazard: &Name) -> bool {
        let hazard = self.book.procedure.hazard(hazard);
        hazard.is_some_and(|hazard| matches!(hazard.signal, Signal::Danger | Signal::Warning))
    }
}
