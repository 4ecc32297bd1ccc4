//! The parts of a procedure that can occur more than once, and which occurrence of one is meant.

use crate::procedure::{CheckedProcedure, Name, SectionId, StepId};

/// A part of a procedure.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// All of it.
    #[default]
    Run,
    /// A section.
    Section(SectionId),
    /// A step, with its parts.
    Step(StepId),
}

impl Part {
    /// The part that it directly belongs to; none for all of it.
    pub fn around(self, procedure: &CheckedProcedure) -> Option<Self> {
        match self {
            Self::Run => None,
            Self::Section(_) => Some(Self::Run),
            Self::Step(step) => {
                let step = procedure.step(step)?;
                Some(step.parent.map_or(Self::Section(step.section), Self::Step))
            }
        }
    }

    /// The parts from a section down to this one.
    pub fn chain(self, procedure: &CheckedProcedure) -> Vec<Self> {
        let mut chain = Vec::with_capacity(4);
        let mut at = self;
        while let Some(around) = at.around(procedure) {
            chain.push(at);
            at = around;
        }
        chain.reverse();
        chain
    }

    /// The repeat that makes it be done more than once.
    pub fn repeat(self, procedure: &CheckedProcedure) -> Option<&Name> {
        match self {
            Self::Run => None,
            Self::Section(section) => procedure.section(section)?.repeat.as_ref(),
            Self::Step(step) => procedure.step(step)?.repeat.as_ref(),
        }
    }

    /// Whether a step is this part or belongs to it, however deep.
    pub fn holds(self, procedure: &CheckedProcedure, step: StepId) -> bool {
        let mut at = Some(Self::Step(step));
        while let Some(part) = at {
            if part == self {
                return true;
            }
            at = part.around(procedure);
        }
        false
    }

    /// The steps that are it or belong to it, in the order of the text.
    pub fn steps(self, procedure: &CheckedProcedure) -> std::ops::Range<usize> {
        let steps = procedure.steps();
        let first = match self {
            Self::Run => Some(0),
            Self::Section(section) => steps.iter().position(|step| step.section == section),
            Self::Step(step) => Some(step.0),
        };
        let Some(first) = first else { return 0..0 };
        let rest = steps.get(first..).unwrap_or_default();
        let count = rest.iter().take_while(|step| self.holds(procedure, step.id)).count();
        first..first + count
    }
}

/// Which turn of each part around an occurrence is meant, from the section down to the occurrence itself; what is left
/// out is the first.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Turns(Vec<u32>);

impl Turns {
    /// The turns of parts that follow one another downwards.
    pub fn of(turns: impl IntoIterator<Item = u32>) -> Self {
        let mut turns: Vec<u32> = turns.into_iter().collect();
        while turns.last() == Some(&1) {
            turns.pop();
        }
        Self(turns)
    }

    /// The turn at a depth, counted from 0 for the section.
    pub fn at(&self, depth: usize) -> u32 {
        self.0.get(depth).copied().unwrap_or(1).max(1)
    }

    /// The turns as written: those that are left out are the first.
    pub fn written(&self) -> &[u32] {
        &self.0
    }
}

/// One occurrence, by its address.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Address {
    /// Of which part.
    pub part: Part,
    /// In which turns.
    pub turns: Turns,
}
