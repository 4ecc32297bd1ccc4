//! Where in the body each name stands: worked out once, looked up often.

use super::model::{Index, Repeated};
use super::{CheckedProcedure, Name, SectionId, Step, StepId};

impl Index {
    fn of(procedure: &CheckedProcedure) -> Self {
        let mut index = Self::default();
        for step in procedure.steps() {
            index.add(procedure, step);
        }
        for (place, section) in procedure.sections().iter().enumerate() {
            if let Some(repeat) = &section.repeat {
                index.repeats.insert(repeat.clone(), Repeated::Section(SectionId(place)));
            }
        }
        for (name, hold) in procedure.holds().iter() {
            for ended in &hold.ends {
                index.enders.entry(ended.clone()).or_default().push(name.clone());
            }
        }
        index
    }

    fn add(&mut self, procedure: &CheckedProcedure, step: &Step) {
        let of_hold = step.hold.as_ref().and_then(|hold| procedure.hold(hold));
        let of_hold = of_hold.into_iter().flat_map(|hold| &hold.readings);
        let fasteners = procedure.fasteners_at(step);
        for name in step.takes.iter().chain(of_hold).chain(&step.computes).chain(fasteners).chain(&step.dues)
        {
            self.homes.entry(name.clone()).or_insert(step.id);
        }
        for wait in &step.starts {
            self.starts.entry(wait.clone()).or_insert(step.id);
        }
        if let Some(hold) = &step.hold {
            self.holds.entry(hold.clone()).or_default().push(step.id);
        }
        if let Some(repeat) = &step.repeat {
            self.repeats.entry(repeat.clone()).or_insert(Repeated::Step(step.id));
        }
        self.numbers.insert(step.number.clone(), step.id);
    }
}

impl CheckedProcedure {
    fn index(&self) -> &Index {
        self.index.get_or_init(|| Index::of(self))
    }

    /// The step at which a reading is taken, a value computed, a group of fasteners tightened, or a due date set.
    pub fn home(&self, name: &Name) -> Option<StepId> {
        self.index().homes.get(name).copied()
    }

    /// The steps at which a hold point is verified, in the order of the text.
    pub fn held_at(&self, hold: &Name) -> &[StepId] {
        self.index().holds.get(hold).map(Vec::as_slice).unwrap_or_default()
    }

    /// The step with which the clock of a wait starts.
    pub fn started_at(&self, wait: &Name) -> Option<StepId> {
        self.index().starts.get(wait).copied()
    }

    /// The step of that number, as a person says it: `3.2`.
    pub fn step_numbered(&self, number: &str) -> Option<&Step> {
        self.step(*self.index().numbers.get(number.trim())?)
    }

    /// What a repeat makes be done more than once.
    pub fn repeated(&self, repeat: &Name) -> Option<Repeated> {
        self.index().repeats.get(repeat).copied()
    }

    /// The hold points that end what this one puts in force.
    pub fn enders(&self, hold: &Name) -> &[Name] {
        self.index().enders.get(hold).map(Vec::as_slice).unwrap_or_default()
    }
}
