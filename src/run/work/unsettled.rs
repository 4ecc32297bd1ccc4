//! What no longer agrees since something was corrected: work that was done under what does not hold any more, and work in
//! passes that have ended of which something is open again. Each is shown and settled before the run is closed.

use crate::procedure::{Name, Step, StepId};
use crate::run::flow::event::FlowAsk;
use crate::run::passes::round::Round;
use crate::run::prompt::{Ask, Prompt};
use crate::run::view::View;
use crate::run::work::derived::Unsettled;
use crate::run::work::part::Part;
use crate::run::work::tree::OccurrenceId;

/// Everything that is to be settled. Only what changes an entry makes something unsettled; from then on all passes are
/// looked at, so that a run that is read back asks what it asked before.
pub(in crate::run) fn unsettled(view: View<'_>) -> Vec<Unsettled> {
    let is_open = |one: &Unsettled| {
        let step = view.book.procedure.step(one.step);
        step.is_some_and(|step| view.inside(one.within).is_unsettled(step))
    };
    everything(view).into_iter().filter(is_open).collect()
}

/// Every step as it is seen at present, and in each pass that has ended and counts.
fn everything(view: View<'_>) -> Vec<Unsettled> {
    let procedure = &view.book.procedure;
    let present = procedure.steps().iter().map(|step| Unsettled { within: OccurrenceId::RUN, step: step.id });
    let passes = procedure.repeats().names().flat_map(|repeat| in_passes(view, repeat));
    passes.chain(present).collect()
}

fn in_passes(view: View<'_>, repeat: &Name) -> Vec<Unsettled> {
    let Some(part) = view.book.part_of(repeat) else { return Vec::new() };
    let steps = part.steps(&view.book.procedure);
    let innermost = |step: StepId| view.book.repeats_over(Part::Step(step)).last().copied() == Some(repeat);
    let steps: Vec<StepId> = steps.map(StepId).filter(|step| innermost(*step)).collect();
    let passes = view.rounds(repeat).into_iter().flat_map(|round| {
        let left_over = view.left_over(repeat, &round);
        round.counting.into_iter().chain(left_over)
    });
    let passes = passes.filter(|pass| view.counts(*pass));
    passes.flat_map(|within| steps.iter().map(move |step| Unsettled { within, step: *step })).collect()
}

impl View<'_> {
    fn is_unsettled(self, step: &Step) -> bool {
        let is_past = self.state.tree.get(self.within).end.is_some()
            && self.state.derived.present(self.part()) != Some(self.within);
        self.disagrees(step) || (is_past && step.groups.is_empty() && !self.is_settled_once(step))
    }

    /// The part of the occurrence from which it is seen.
    fn part(self) -> Part {
        self.state.tree.get(self.within).part
    }

    fn is_settled_once(self, step: &Step) -> bool {
        self.is_not_applicable(step) || self.is_complete_once(step)
    }

    /// Whether something of a step was done, and a condition that it was done under does not hold any more.
    fn disagrees(self, step: &Step) -> bool {
        let section = self.book.procedure.section(step.section).filter(|_| step.parent.is_none());
        let of_section = section.into_iter().flat_map(|section| &section.conditions);
        let mut conditions = step.conditions.iter().chain(of_section);
        self.said(step.id).settled.is_none()
            && self.is_touched(step)
            && (self.is_left_over(step)
                || conditions.any(|condition| self.asked_at(step.id).condition(condition) == Some(false)))
    }

    /// Whether a step was done in a pass that is not made any more; told once for all its parts.
    fn is_left_over(self, step: &Step) -> bool {
        let (tree, part) = (&self.state.tree, self.part());
        let top = step.parent.map_or(Part::Section(step.section), Part::Step);
        if tree.get(self.within).end.is_some() || (top != part && Part::Step(step.id) != part) {
            return false;
        }
        let around = self.inside(tree.get(self.within).within);
        let repeat = part.repeat(&self.book.procedure).and_then(|repeat| around.round(repeat));
        repeat.is_some_and(|round| round.over.is_some())
    }

    /// The pass that was begun of a repeat that makes no further one any more.
    fn left_over(self, repeat: &Name, round: &Round) -> Option<OccurrenceId> {
        let part = self.book.part_of(repeat)?;
        let turns = self.state.tree.turns(round.within?, part);
        let last = *turns.last().filter(|_| round.over.is_some())?;
        self.state.tree.get(last).end.is_none().then_some(last)
    }

    /// What is asked about the first thing that no longer agrees.
    pub(in crate::run) fn ask_unsettled(self) -> Option<Prompt> {
        let mut unsettled = self.state.derived.unsettled.iter();
        unsettled.find_map(|one| {
            let (here, step) = (self.inside(one.within), self.book.procedure.step(one.step)?);
            if here.disagrees(step) {
                return Some(here.prompt(Ask::Flow(FlowAsk::Disagrees(step.id)), Some(step.id)));
            }
            here.ask_open_step(step).filter(|_| here.is_unsettled(step) && one.within != OccurrenceId::RUN)
        })
    }
}
