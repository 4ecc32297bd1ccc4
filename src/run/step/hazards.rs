//! Hazards: which stand over a step, which were read, which demand a word before anything is done.

use crate::procedure::{Name, Passage, Piece, SectionId, Signal, Step};
use crate::run::prompt::Ask;
use crate::run::view::View;
use crate::run::work::part::Part;
use crate::run::work::tree::OccurrenceId;

impl<'run> View<'run> {
    pub(in crate::run) fn ask_hazard(self, step: &Step) -> Option<Ask> {
        let mut hazards = self.hazards_over(step).into_iter().chain(&step.hazards);
        let unsaid = |hazard: &&Name| self.demands_a_word(hazard) && !self.is_acknowledged(step, hazard);
        hazards.find(unsaid).map(|hazard| Ask::Acknowledge(hazard.clone()))
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

    /// Whether a hazard was read before a step: acknowledged, or, where nobody has to say a word, shown with a step of the
    /// section that was begun.
    pub fn is_hazard_read(self, step: &Step, hazard: &Name) -> bool {
        if self.demands_a_word(hazard) {
            return self.is_acknowledged(step, hazard);
        }
        let over_all = !step.hazards.contains(hazard);
        self.is_begun(step)
            || over_all && self.book.procedure.steps_in(step.section).any(|other| self.is_begun(other))
    }

    /// Whether a hazard was read and understood in the section of a step, in this sitting, by those who are there now.
    /// What is begun anew is read anew.
    fn is_acknowledged(self, step: &Step, hazard: &Name) -> bool {
        let resumed = self.state.particulars.resumed.as_ref().map(|resumed| resumed.seq);
        let since = resumed.into_iter().chain(self.state.people.newest()).chain(self.reopened(step));
        let since = since.chain(self.released_and_lapsed(step)).max();
        let said = self.state.acknowledged_at.get(hazard).map(Vec::as_slice).unwrap_or_default();
        let counts = said.iter().rev().take_while(|(_, seq)| Some(*seq) > since);
        counts.into_iter().any(|(at, _)| self.is_in_section(*at, step.section))
    }

    /// When the hold point of a step was released that has to be verified again: its hazards come first, before anything of it.
    fn released_and_lapsed(self, step: &Step) -> Option<u64> {
        let hold = step.hold.as_ref()?;
        let at = self.find(Part::Step(step.id))?;
        let released = self.verification_at(hold, at).released?;
        self.lapse_at(hold, at, &released).map(|_| released.seq)
    }

    /// Whether an occurrence belongs to a section, in whatever pass, and was not set aside.
    fn is_in_section(self, at: OccurrenceId, section: SectionId) -> bool {
        let tree = &self.state.tree;
        let around = tree.outwards(at).find(|at| tree.get(*at).part == Part::Section(section));
        around.is_some_and(|around| !tree.is_set_aside(around))
    }

    pub(in crate::run) fn demands_a_word(self, hazard: &Name) -> bool {
        let hazard = self.book.procedure.hazard(hazard);
        hazard.is_some_and(|hazard| matches!(hazard.signal, Signal::Danger | Signal::Warning))
    }
}
