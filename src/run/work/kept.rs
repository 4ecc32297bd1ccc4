//! What was found out of steps, kept from entry to entry for as long as nothing is said that bears on it.

use std::cell::Cell;
use std::sync::Arc;

use crate::procedure::StepId;
use crate::run::book::Book;
use crate::run::event::Event;
use crate::run::memo::Fact;
use crate::run::stamp::Stamp;
use crate::run::work::part::Part;
use crate::run::work::rests_on::steady;
use crate::run::work::steady::Steady;

/// What was found out of the steps of a run, seen from the run itself. It follows from the rest of the state and says
/// nothing of its own: two states that differ in it alone are the same.
#[derive(Clone, Debug, Default)]
pub struct Kept {
    steady: Arc<Steady>,
    facts: Vec<Cell<[Option<bool>; Fact::COUNT]>>,
}

impl PartialEq for Kept {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Kept {
    /// Nothing is known yet.
    pub(in crate::run) fn nothing(book: &Book) -> Self {
        let steady = book.steady(|| steady(book));
        Self { facts: vec![Cell::default(); steady.steps()], steady }
    }

    /// What is still known after an entry.
    pub(in crate::run) fn after(self, book: &Book, event: &Event, stamp: &Stamp, is_revised: bool) -> Self {
        let place = stamp.place.as_ref().map(|place| place.part);
        match (place, bears_on_its_step_alone(event) && !is_revised && !self.facts.is_empty()) {
            (Some(Part::Step(step)), true) => {
                for resting in self.steady.resting_on(step) {
                    if let Some(facts) = self.facts.get(resting.0) {
                        facts.set([None; Fact::COUNT]);
                    }
                }
                self
            }
            _ => Self::nothing(book),
        }
    }

    /// What is known of a step.
    pub(in crate::run) fn get(&self, fact: Fact, step: StepId) -> Option<bool> {
        self.facts.get(step.0)?.get()[fact as usize]
    }

    /// Keeps what was found, where it stays so.
    pub(in crate::run) fn keep(&self, fact: Fact, step: StepId, found: bool) {
        if let Some(facts) = self.facts.get(step.0).filter(|_| self.steady.is_steady(step)) {
            let mut known = facts.get();
            known[fact as usize] = Some(found);
            facts.set(known);
        }
    }
}

/// Whether an entry at a step says something of that step and of nothing else.
fn bears_on_its_step_alone(event: &Event) -> bool {
    matches!(
        event,
        Event::Acknowledged { .. }
            | Event::Read { .. }
            | Event::Done(_)
            | Event::Confirmed { .. }
            | Event::Released { .. }
            | Event::Fastening(_)
            | Event::Picked(_)
    )
}
