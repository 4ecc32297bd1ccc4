//! When a tool, a material or a part is needed: the first step that names it or works with it.

use super::{CheckedProcedure, Name, Passage, Piece, Step};

impl CheckedProcedure {
    /// The first step that a tool, a material or a part is needed at. One that is only spoken of in front of a step is
    /// needed at that step; one that no step speaks of has none.
    pub fn needed_at(&self, name: &Name) -> Option<&Step> {
        let mut steps = self.steps().iter();
        let before = |step: &&Step| says_in(&step.before, name);
        steps.clone().find(|step| self.needs(step, name)).or_else(|| steps.find(before))
    }

    /// Whether a tool, a material or a part is needed at a step: it names it, or works with it.
    pub fn needs(&self, step: &Step, name: &Name) -> bool {
        self.works_with(step, name) || says(&step.text, name) || says_in(&step.passages, name)
    }

    /// Whether something is read or tightened with that tool at a step.
    fn works_with(&self, step: &Step, tool: &Name) -> bool {
        let hold = step.hold.as_ref().and_then(|hold| self.hold(hold));
        let of_hold = hold.map(|hold| hold.readings.as_slice()).unwrap_or_default();
        let readings = step.takes.iter().chain(of_hold).filter_map(|name| self.reading(name));
        let groups = self.fasteners_at(step).filter_map(|group| self.fastener_group(group));
        let by_reading = readings.map(|reading| reading.instrument.as_ref());
        let by_group = groups.map(|group| group.instrument.as_ref());
        by_reading.chain(by_group).any(|instrument| instrument == Some(tool))
    }
}

fn says_in(passages: &[Passage], name: &Name) -> bool {
    passages.iter().any(|passage| says(&passage.text, name))
}

fn says(pieces: &[Piece], name: &Name) -> bool {
    pieces.iter().any(|piece| matches!(piece, Piece::Mention(said) if said.value == *name))
}
