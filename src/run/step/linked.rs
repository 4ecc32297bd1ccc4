//! Procedures within procedures: where the work goes on when a linked one is over.

use crate::procedure::{Group, Link, Order, Step, StepId};
use crate::run::view::View;

/// A linked procedure that is being run.
#[derive(Clone, Debug)]
pub struct Within<'run> {
    /// The procedure.
    pub link: &'run Link,
    /// The step that links to it.
    pub step: &'run Step,
    /// The numbers of the steps of which one is next when it is over, or of the section or step that then begins its next
    /// pass; none where it is the last thing to be done.
    pub back: Vec<String>,
}

impl<'run> View<'run> {
    /// The linked procedures that a step belongs to, the outermost first.
    pub fn within(self, step: StepId) -> Vec<Within<'run>> {
        let procedure = &self.book.procedure;
        let mut stack = Vec::new();
        let mut inner = procedure.step(step);
        while let Some(step) = inner {
            let outer = step.parent.and_then(|parent| procedure.step(parent));
            // Of the parts of a linking step only those from another text are parts of what it links to.
            if let Some(outer) = outer.filter(|outer| outer.source != step.source)
                && let Some(link) = &outer.link
            {
                stack.push(Within { link, step: outer, back: self.back(outer) });
            }
            inner = outer;
        }
        stack.reverse();
        stack
    }

    /// Where the work goes on when what a step links to is over.
    fn back(self, linking: &'run Step) -> Vec<String> {
        let own = |step: &&Step| step.source == linking.source;
        let mut parts = linking.groups.iter().flat_map(|group| self.steps_of(group)).filter(own);
        if let Some(part) = parts.find(|part| !self.is_settled(part)) {
            return vec![part.number.clone()];
        }
        let mut at = linking;
        loop {
            if at.repeat.as_ref().is_some_and(|repeat| !self.is_over(repeat)) {
                return vec![at.number.clone()];
            }
            let parent = at.parent.and_then(|parent| self.book.procedure.step(parent));
            let section = self.book.procedure.section(at.section);
            let groups = parent
                .map(|parent| parent.groups.as_slice())
                .or(section.map(|section| section.groups.as_slice()));
            let left = self.left_beside(groups.unwrap_or_default(), at);
            match parent {
                _ if !left.is_empty() => return left,
                Some(parent) => at = parent,
                None => return self.after_section(at),
            }
        }
    }

    /// What is left of the lists around a step: any of its own where the order is free, else the next one.
    fn left_beside(self, groups: &'run [Group], step: &Step) -> Vec<String> {
        let open = |other: &&Step| other.id != step.id && !self.is_settled(other);
        let mut lists = groups.iter().skip_while(|group| !group.steps.contains(&step.id));
        let free = lists.clone().next().filter(|group| group.order == Order::AnyOrder);
        let numbers: Vec<String> = free
            .into_iter()
            .flat_map(|group| self.steps_of(group))
            .filter(open)
            .map(|step| step.number.clone())
            .collect();
        if !numbers.is_empty() {
            return numbers;
        }
        let later =
            lists.find_map(|group| self.steps_of(group).filter(open).find(|other| other.id > step.id));
        later.map(|step| step.number.clone()).into_iter().collect()
    }

    fn after_section(self, step: &Step) -> Vec<String> {
        let procedure = &self.book.procedure;
        let repeat = procedure.section(step.section).and_then(|section| section.repeat.as_ref());
        if repeat.is_some_and(|repeat| !self.is_over(repeat)) {
            return vec![(step.section.0 + 1).to_string()];
        }
        let later = procedure.steps().iter().filter(|other| other.section > step.section);
        let next = later.filter(|other| other.parent.is_none()).find(|other| !self.is_settled(other));
        next.map(|step| step.number.clone()).into_iter().collect()
    }
}
