//! The longest stretch of a job that cannot be left half-way.

use crate::procedure::{Step, StepId};
use crate::run::view::View;
use crate::run::work::unrolled::StepAt;

/// A row of steps between two points at which the job can rest.
#[derive(Clone, Debug)]
pub struct Stretch<'run> {
    /// The first step: its number, and its pass.
    pub from: String,
    /// The last.
    pub to: String,
    /// How many there are.
    pub steps: usize,
    /// The state in which the job can rest after it; none at the end of the job.
    pub rests: Option<&'run str>,
}

impl<'run> View<'run> {
    /// The stretches between the points at which the job can rest, in the order of the text.
    pub fn stretches(self) -> Vec<Stretch<'run>> {
        let mut stretches: Vec<Stretch<'run>> = Vec::new();
        let mut open: Option<Stretch<'run>> = None;
        for at in self.walked() {
            let here = self.place_in_words(at);
            let begun = || Stretch { from: here.clone(), to: here.clone(), steps: 0, rests: None };
            let mut stretch = open.take().unwrap_or_else(begun);
            stretch.to = here;
            stretch.steps += 1;
            stretch.rests = self.rests_after(at.step.id);
            if stretch.rests.is_some() {
                stretches.push(stretch);
            } else {
                open = Some(stretch);
            }
        }
        stretches.extend(open);
        stretches
    }

    /// `4.3.2`, and in repeats `4.3.2, pass 2 of 3`.
    fn place_in_words(self, at: StepAt<'_>) -> String {
        let pass = self.inside(at.from()).pass_words(at.step.id);
        pass.map_or_else(|| at.step.number.clone(), |pass| format!("{}, {pass}", at.step.number))
    }

    /// The longest of them.
    pub fn longest_stretch(self) -> Option<Stretch<'run>> {
        // Of two that are equally long the first: whoever plans the evening meets it first.
        self.stretches().into_iter().rev().max_by_key(|stretch| stretch.steps)
    }

    /// The state in which the job can rest once a step is done, or the step whose last part it is.
    pub fn rests_after(self, step: StepId) -> Option<&'run str> {
        let procedure = &self.book.procedure;
        let mut at = procedure.step(step);
        while let Some(step) = at {
            let point = step.stopping_point.as_ref().and_then(|name| procedure.stopping_point(name));
            if let Some(point) = point {
                return Some(&point.what);
            }
            let parent = step.parent.and_then(|parent| procedure.step(parent));
            let last =
                |parent: &&Step| parent.groups.last().and_then(|group| group.steps.last()) == Some(&step.id);
            at = parent.filter(last);
        }
        None
    }
}
