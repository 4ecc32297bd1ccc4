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
    facts: Vec<Facts>,
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
        Self { facts: vec![Facts::default(); steady.steps()], steady }
    }

    /// What is still known after an entry.
    pub(in crate::run) fn after(self, book: &Book, event: &Event, stamp: &Stamp, is_revised: bool) -> Self {
        let place = stamp.place.as_ref().map(|place| place.part);
        match (place, bears_on_its_step_alone(event) && !is_revised && !self.facts.is_empty()) {
            (Some(Part::Step(step)), true) => {
                for resting in self.steady.resting_on(step) {
                    self.facts.get(resting.0).into_iter().for_each(Facts::forget);
                }
                self
            }
            _ => Self::nothing(book),
        }
    }

    /// What is known of a step, of one of which it stays so.
    pub(in crate::run) fn of(&self, step: StepId) -> Option<&Facts> {
        self.facts.get(step.0).filter(|_| self.steady.is_steady(step))
    }
}

/// What is known of one step.
#[derive(Clone, Debug, Default)]
pub(in crate::run) struct Facts(Cell<[Option<bool>; Fact::COUNT]>);

impl Facts {
    /// What is known, else what is worked out now.
    pub(in crate::run) fn of(&self, fact: Fact, work_out: impl FnOnce() -> bool) -> bool {
        let known = self.0.get()[fact as usize];
        known.unwrap_or_else(|| {
            let found = work_out();
            // Other facts of the step may have been found out meanwhile.
            let mut facts = self.0.get();
            facts[fact as usize] = Some(found);
            self.0.set(facts);
            found
        })
    }

    fn forget(&self) {
        self.0.take();
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
