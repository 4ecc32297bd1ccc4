//! What a step rests on: where something has to be said for it to become another.

use std::collections::BTreeSet;

use crate::procedure::{Ground, Name, Step, StepId};
use crate::run::book::{Book, names_of};
use crate::run::work::part::Part;
use crate::run::work::steady::Steady;

/// Which steps of a procedure rest on which. One that rests on the time, on passes or on a hold point is not steady.
pub(in crate::run) fn steady(book: &Book) -> Steady {
    let steps = book.procedure.steps();
    let mut rests_on = vec![None; steps.len()];
    // The parts of a step come after it.
    for step in steps.iter().rev() {
        rests_on[step.id.0] = book.step_rests_on(step, &rests_on);
    }
    Steady::of(&rests_on)
}

impl Book {
    /// The steps at which something has to be said for a step to become another; none where more than that can do it.
    fn step_rests_on(&self, step: &Step, beneath: &[Option<BTreeSet<StepId>>]) -> Option<BTreeSet<StepId>> {
        let mut over = std::iter::successors(Some(step), |step| self.procedure.step(step.parent?));
        let is_plain = step.hold.is_none()
            && step.fasteners.is_empty()
            && step.witnesses.is_empty()
            && step.link.is_none()
            && over.all(|step| step.needs.is_empty())
            && self.repeats_over(Part::Step(step.id)).is_empty();
        if !is_plain {
            return None;
        }
        let names = self.conditions_over(step).chain(&step.takes).chain(&step.computes);
        let mut found = self.names_rest_on(names.cloned())?;
        for part in step.groups.iter().flat_map(|group| &group.steps) {
            found.extend(beneath.get(part.0)?.as_ref()?);
        }
        found.insert(step.id);
        Some(found)
    }

    /// The steps at which names get what they stand for, with all that they are judged by.
    fn names_rest_on(&self, names: impl Iterator<Item = Name>) -> Option<BTreeSet<StepId>> {
        let ground = |name: &Name| self.procedure.condition(name).map(|condition| &condition.ground);
        let all = self.beneath(names, |book, name| match ground(name) {
            Some(Ground::If(formula)) => names_of(formula),
            Some(Ground::Failed(result)) => vec![result.clone()],
            Some(Ground::Missed(_) | Ground::GaveUp(_)) => Vec::new(),
            None => book.formula_names(name).into_iter().chain(book.criterion_names(name)).collect(),
        });
        let mut steps = BTreeSet::new();
        for name in all.iter().filter(|name| !self.procedure.vehicle().contains(name)) {
            match ground(name) {
                Some(Ground::If(_) | Ground::Failed(_)) => {}
                Some(Ground::Missed(_) | Ground::GaveUp(_)) => return None,
                None => drop(steps.insert(self.one_step_of(name)?)),
            }
        }
        Some(steps)
    }

    /// The step at which a name gets its value, where it is one alone and comes once; none where a second person or a
    /// limit in force over several readings has a say in it too.
    fn one_step_of(&self, name: &Name) -> Option<StepId> {
        let step = self.procedure.step(self.procedure.home(name)?)?;
        let is_watched = self.procedure.watches().iter().any(|(_, watch)| watch.readings.contains(name));
        let reading = self.procedure.reading(name);
        let is_seconded = reading.is_some_and(|reading| reading.second.is_some());
        let is_alone = step.hold.is_none() && self.repeats_over(Part::Step(step.id)).is_empty();
        (is_alone && !is_watched && !is_seconded).then_some(step.id)
    }
}
