//! Leaving: whether the job can be left as it stands, and what becomes of each protection before the run rests.

use crate::procedure::{Name, Step, StepId};
use crate::run::prompt::{Ask, Prompt};
use crate::run::sitting::event::InterruptionAsk;
use crate::run::state::Left;
use crate::run::view::View;
use crate::run::work::part::Part;

/// Whether the job can be left as it stands.
#[derive(Clone, Debug)]
pub enum CanStop<'run> {
    /// It can: this is the state that things are in.
    Yes(&'run str),
    /// It is no safe stopping point.
    No(Unsafe<'run>),
}

/// What makes a place no safe stopping point, and which is the next that is.
#[derive(Clone, Debug)]
pub struct Unsafe<'run> {
    /// The step of which something is done.
    pub begun: Option<&'run Step>,
    /// The next step after which the job can be left, and the state that things are in then.
    pub next: Option<(&'run Step, &'run str)>,
    /// How many steps are to be done until then, or to the end of the job.
    pub away: usize,
}

impl<'run> View<'run> {
    /// Whether the job can be left as it stands.
    pub fn can_stop(self) -> CanStop<'run> {
        let current = self.ahead().step.and_then(|step| self.book.procedure.step(step));
        let begun = current.filter(|step| self.is_begun(step) && !self.is_complete(step));
        match self.rests_at() {
            Some(state) if begun.is_none() => CanStop::Yes(state),
            _ => CanStop::No(self.not_here(current, begun)),
        }
    }

    /// Whether the step that was done last is a stopping point, and nothing is begun after it.
    pub fn is_at_stopping_point(self) -> bool {
        self.point_of_last().is_some() && matches!(self.can_stop(), CanStop::Yes(_))
    }

    /// The state that things are in after the last step that was done, where the job can be left then.
    fn rests_at(self) -> Option<&'run str> {
        if self.state.last_work.is_none() {
            return Some("nothing is begun yet");
        }
        if self.book.procedure.steps().iter().all(|step| self.is_settled(step)) {
            return Some("every step is settled");
        }
        self.point_of_last()
    }

    /// The stopping point of the step that was done last, in whatever pass, or of one whose last part it is.
    fn point_of_last(self) -> Option<&'run str> {
        let (at, last) = self.state.last_work.as_ref()?;
        let here = self.inside(*at);
        let tree = &self.state.tree;
        let parts = tree.outwards(*at).map(|at| tree.get(at).part);
        let steps = parts.filter_map(|part| match part {
            Part::Step(step) => self.book.procedure.step(step),
            _ => None,
        });
        let done = steps.take_while(|step| here.completed(step).is_some_and(|stamp| stamp.seq <= last.seq));
        done.filter_map(|step| self.stopping_point(step)).last()
    }

    /// Whether a step is a stopping point, or the last part of one that is.
    pub(in crate::run) fn can_rest_after(self, step: &Step) -> bool {
        let procedure = &self.book.procedure;
        let mut around = std::iter::successors(Some(step), |step| procedure.step(step.parent?));
        around.any(|step| self.stopping_point(step).is_some())
    }

    fn stopping_point(self, step: &Step) -> Option<&'run str> {
        let point = self.book.procedure.stopping_point(step.stopping_point.as_ref()?)?;
        Some(&point.what)
    }

    fn not_here(self, current: Option<&'run Step>, begun: Option<&'run Step>) -> Unsafe<'run> {
        let from = current.map_or(StepId(0), |step| step.id);
        let next = self.next_stopping_point(from);
        let away = self.steps_until(from, next.map(|(step, _)| step));
        Unsafe { begun, next, away }
    }

    /// The next step that is a stopping point: in the pass that goes on, in a further pass of the same repeat, after it.
    fn next_stopping_point(self, from: StepId) -> Option<(&'run Step, &'run str)> {
        let steps = self.book.procedure.steps();
        let first_in = |range: std::ops::Range<usize>, is_meant: &dyn Fn(&Step) -> bool| {
            let mut steps = steps.get(range).unwrap_or_default().iter().filter(|step| is_meant(step));
            steps.find_map(|step| Some((step, self.stopping_point(step)?)))
        };
        let is_open = |step: &Step| !self.is_settled(step);
        let mut begin = from.0;
        let mut repeats = self.book.repeats_over(Part::Step(from));
        while let Some(repeat) = repeats.pop() {
            let Some(part) = self.book.part_of(repeat) else { continue };
            let range = part.steps(&self.book.procedure);
            let here = first_in(begin..range.end, &is_open);
            let again = || (self.further(repeat) > 0).then(|| first_in(range.clone(), &|_| true)).flatten();
            if let Some(point) = here.or_else(again) {
                return Some(point);
            }
            begin = range.end;
        }
        first_in(begin..steps.len(), &is_open)
    }

    /// How many passes of a repeat come after the present one, as far as that is known.
    fn further(self, repeat: &Name) -> usize {
        let round = self.round(repeat).filter(|round| round.over.is_none());
        let wanted = self.wanted(repeat).unwrap_or_default();
        round.map_or(0, |round| wanted.saturating_sub(round.counting.len() + 1))
    }

    /// How many steps are to be done until a step is done, it among them, or until the end of the job: passes counted.
    fn steps_until(self, from: StepId, until: Option<&Step>) -> usize {
        let steps = self.book.procedure.steps();
        let around = self
            .book
            .repeats_over(Part::Step(from))
            .into_iter()
            .filter_map(|repeat| self.book.part_of(repeat));
        let outer =
            around.filter(|part| until.is_none_or(|until| !part.holds(&self.book.procedure, until.id)));
        let first = outer.map(|part| part.steps(&self.book.procedure).start).min().unwrap_or(from.0);
        let last = until.map_or(steps.len(), |until| until.id.0 + 1);
        let wraps = last <= from.0;
        let ranges = if wraps { [from.0..steps.len(), first..last] } else { [first..last, 0..0] };
        let count = |range: std::ops::Range<usize>| -> usize {
            let steps = steps.get(range).unwrap_or_default().iter().filter(|step| step.groups.is_empty());
            steps.map(|step| self.still_to_do(step, until)).sum()
        };
        ranges.into_iter().map(count).sum()
    }

    /// How often a step is still to be done before another one that stands outside its repeats.
    fn still_to_do(self, step: &Step, until: Option<&Step>) -> usize {
        let procedure = &self.book.procedure;
        let repeats = self.book.repeats_over(Part::Step(step.id)).into_iter();
        let is_outside = |repeat: &&Name| {
            let part = self.book.part_of(repeat);
            part.is_some_and(|part| until.is_none_or(|until| !part.holds(procedure, until.id)))
        };
        let (mut further, mut each) = (0, 1);
        for repeat in repeats.filter(is_outside).collect::<Vec<_>>().into_iter().rev() {
            further += self.further(repeat) * each;
            each *= self.wanted(repeat).unwrap_or(1);
        }
        let applies = !self.is_not_applicable(step);
        usize::from(!self.is_settled(step)) + if applies { further } else { 0 }
    }

    /// What is still to be said before the run rests: of each protection in force whether it stays so; how things
    /// stand, where that has changed since.
    pub(in crate::run) fn ask_to_leave(self) -> Option<Prompt> {
        let left = self.state.left.as_ref()?;
        let of_run = |ask| self.prompt(Ask::Interruption(ask), None);
        self.ask_to_make_safe()
            .or_else(|| self.ask_protection(left).map(of_run))
            .or_else(|| self.is_state_changed(left).then(|| of_run(InterruptionAsk::Standing)))
    }

    fn ask_protection(self, left: &Left) -> Option<InterruptionAsk> {
        let decided =
            |hold: &Name| self.state.interruption.kept.get(hold).is_some_and(|seq| *seq > left.stamp.seq);
        let mut protections = self.protections().into_iter();
        let open = protections.find(|protection| !decided(protection.hold))?;
        Some(InterruptionAsk::Protection(open.hold.clone()))
    }

    /// The hold point that ends the protection, from its hazards to its release, wherever the work stands.
    fn ask_to_make_safe(self) -> Option<Prompt> {
        let hold = self.state.interruption.making_safe.as_ref()?;
        if self.last_release(hold).is_none() || self.is_ended(hold) {
            return None;
        }
        let ender = self.ender(hold)?;
        self.ask_again(ender, self.step_to_end(hold, ender)?)
    }

    /// The hold point that ends what another one put in force.
    pub fn ender(self, hold: &Name) -> Option<&'run Name> {
        let applies = |name: &&Name| self.ending_steps(hold, name).any(|step| self.applies(step).is_yes());
        self.book
            .procedure
            .enders(hold)
            .iter()
            .find(applies)
            .or_else(|| self.book.procedure.enders(hold).first())
    }

    /// The step at which a hold point ends what another one put in force where it was last released: the next one that
    /// applies.
    fn step_to_end(self, hold: &Name, ender: &Name) -> Option<&'run Step> {
        let applying = self.ending_steps(hold, ender).find(|step| self.applies(step).is_yes());
        applying.or_else(|| self.ending_steps(hold, ender).next()).or_else(|| self.book.step_of_hold(ender))
    }

    fn ending_steps(self, hold: &Name, ender: &Name) -> impl Iterator<Item = &'run Step> {
        let released = self.last_release(hold).map(|(at, _)| self.state.tree.get(at).part);
        let is_after = move |step: &StepId| !matches!(released, Some(Part::Step(since)) if *step < since);
        let procedure = &self.book.procedure;
        procedure
            .held_at(ender)
            .iter()
            .filter(move |step| is_after(step))
            .filter_map(|step| procedure.step(*step))
    }

    fn is_state_changed(self, left: &Left) -> bool {
        let holds = self.book.procedure.holds().iter().filter(|(_, hold)| !hold.ends.is_empty());
        let ended = holds.filter_map(|(name, _)| self.released_seq(name)).max().unwrap_or_default();
        let told = self.state.interruption.found.as_ref().map_or(left.stamp.seq, |(_, stamp)| stamp.seq);
        ended > left.stamp.seq.max(told)
    }
}
