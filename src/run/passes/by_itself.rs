//! Passes that count by themselves, and one that is taken back afterwards.

use crate::procedure::{Name, Step};
use crate::run::flow::event::{FlowAnswer, FlowAsk};
use crate::run::prompt::{Answer, Ask};
use crate::run::view::View;
use crate::run::work::tree::{OccurrenceId, PassEnd};

impl<'run> View<'run> {
    /// The answer that nobody has to give: a pass in which nothing failed and nothing was departed from counts.
    pub fn answers_itself(self) -> Option<Answer> {
        let prompt = self.next();
        let Ask::Flow(FlowAsk::PassEnd(repeat)) = &prompt.ask else { return None };
        self.inside(prompt.within).is_pass_sound(repeat).then_some(Answer::Flow(FlowAnswer::Counts))
    }

    fn is_pass_sound(self, repeat: &Name) -> bool {
        let Some(part) = self.book.part_of(repeat) else { return false };
        let Some(pass) = self.find(part) else { return false };
        let steps = self.book.procedure.steps().get(part.steps(&self.book.procedure)).unwrap_or_default();
        !self.is_departed_from(pass) && !steps.iter().any(|step| self.has_failed_at(step))
    }

    fn is_departed_from(self, pass: OccurrenceId) -> bool {
        let tree = &self.state.tree;
        let began = tree.get(pass).began.as_ref().map_or(0, |began| began.seq);
        let mut since =
            self.state.deviations.iter().rev().take_while(|deviation| deviation.stamp.seq >= began);
        since.any(|deviation| tree.outwards(deviation.at).any(|at| at == pass))
    }

    /// Whether a result of a step fails as it stands, also where the procedure says how it goes on then, or came too late.
    /// What was found before an adjustment may fail.
    fn has_failed_at(self, step: &Step) -> bool {
        let results = step.takes.iter().chain(&step.computes).filter(|name| !self.is_as_found(name));
        let mut judged = results.filter_map(|name| self.judge(name)).map(|judged| judged.judgement);
        judged.any(|judgement| judgement.is_known() && !judgement.lets_go_on())
            || step.fasteners.iter().any(|group| self.has_failed_group(group) == Some(true))
            || step.needs.iter().any(|wait| self.misses(step, wait))
    }

    /// The pass that ended last, while nothing was done since: it can still be said that it does not count.
    pub fn pass_just_ended(self) -> Option<(&'run Name, OccurrenceId)> {
        let tree = &self.state.tree;
        let (at, _) = self.state.last_work.as_ref()?;
        let ended = tree.outwards(*at).filter_map(|at| Some((at, tree.get(at).end.as_ref()?)));
        let (pass, ending) = ended.max_by_key(|(_, ending)| ending.stamp.seq)?;
        let repeat = tree.get(pass).part.repeat(&self.book.procedure)?;
        (ending.how == PassEnd::Counts).then_some((repeat, pass))
    }
}
