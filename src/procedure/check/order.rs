//! Which of two steps surely comes first, whatever order the person chooses.

use super::Draft;
use crate::procedure::{Group, Order, Step, StepId};

impl Draft<'_> {
    /// Whether `first` is over, whatever order the person chooses, when `later` begins.
    ///
    /// What a step asks for itself comes before its parts.
    pub(in crate::procedure) fn surely_before(&self, first: &Step, later: &Step) -> bool {
        if first.id >= later.id {
            return false;
        }
        let one = self.line_of(first);
        let other = self.line_of(later);
        let fork = one.iter().zip(&other).position(|(a, b)| a != b);
        let Some(fork) = fork else {
            return true;
        };
        let (Some(&a), Some(&b)) = (one.get(fork), other.get(fork)) else {
            return true;
        };
        !self.free_of_each_other(a, b)
    }

    /// From the outermost step down to this one.
    fn line_of(&self, step: &Step) -> Vec<StepId> {
        let mut line = vec![step.id];
        let mut parent = step.parent;
        while let Some(step) = parent.and_then(|id| self.step(id)) {
            line.push(step.id);
            parent = step.parent;
        }
        line.reverse();
        line
    }

    /// Whether two steps stand in the same list and may be done in either order.
    fn free_of_each_other(&self, one: StepId, other: StepId) -> bool {
        let group = group_of(self.groups_around(one), one);
        group.is_some_and(|group| group.order == Order::AnyOrder && group.steps.binary_search(&other).is_ok())
    }

    /// Whether a step, or one it is a part of, stands in a list whose order is free.
    pub(in crate::procedure) fn in_free_order(&self, step: &Step) -> bool {
        let free = |id: &StepId| {
            let mine = group_of(self.groups_around(*id), *id);
            mine.is_some_and(|group| group.order == Order::AnyOrder && group.steps.len() > 1)
        };
        self.line_of(step).iter().any(free)
    }

    /// The lists among which a step's own one is.
    fn groups_around(&self, id: StepId) -> &[Group] {
        let Some(step) = self.step(id) else {
            return &[];
        };
        match step.parent.and_then(|parent| self.step(parent)) {
            Some(parent) => &parent.groups,
            None => self.sections.get(step.section.0).map_or(&[], |section| &section.groups),
        }
    }
}

/// The list that a step is an item of: lists and their items stand in the order of the text.
fn group_of(groups: &[Group], id: StepId) -> Option<&Group> {
    let after = groups.partition_point(|group| group.steps.first().is_some_and(|first| *first <= id));
    let group = groups.get(after.checked_sub(1)?)?;
    group.steps.binary_search(&id).is_ok().then_some(group)
}
