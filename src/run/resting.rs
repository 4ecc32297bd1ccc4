//! Leaving: whether the job can be left as it stands, and what becomes of each protection before the run rests.

use super::interruption::InterruptionAsk;
use super::prompt::{Ask, Prompt};
use super::state::Left;
use super::view::View;
use crate::procedure::{Name, Step};

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
    /// The last step that was done.
    pub last: Option<&'run Step>,
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
        if self.state.finished.is_empty() {
            return Some("nothing is begun yet");
        }
        if self.book.procedure.steps().iter().all(|step| self.is_settled(step)) {
            return Some("every step is settled");
        }
        self.point_of_last()
    }

    fn point_of_last(self) -> Option<&'run str> {
        let last = self.state.finished.values().copied().max()?;
        // What was done in a pass that has ended is still the last that was done; what was opened again is not done.
        let with_it = self.book.procedure.steps().iter().filter(|step| {
            let stands = self.state.completed.contains_key(&step.id) || !self.state.counts(step.id, last);
            stands && self.state.finished.get(&step.id) == Some(&last)
        });
        with_it.filter_map(|step| self.stopping_point(step)).next_back()
    }

    fn stopping_point(self, step: &Step) -> Option<&'run str> {
        let point = self.book.procedure.stopping_point(step.stopping_point.as_ref()?)?;
        Some(&point.what)
    }

    fn not_here(self, current: Option<&'run Step>, begun: Option<&'run Step>) -> Unsafe<'run> {
        let from = current.map_or(0, |step| step.id.0);
        let ahead = self.book.procedure.steps().get(from..).unwrap_or_default().iter();
        let mut open = ahead.filter(|step| !self.is_settled(step));
        let point = open.find_map(|step| Some((step, self.stopping_point(step)?)));
        let last = point.map_or(self.book.procedure.steps().len(), |(step, _)| step.id.0 + 1);
        let between = self.book.procedure.steps().get(from..last).unwrap_or_default().iter();
        let away = between.filter(|step| step.groups.is_empty() && !self.is_settled(step)).count();
        Unsafe { begun, last: self.last_done().last().copied(), next: point, away }
    }

    /// What is still to be said before the run rests: of each protection in force whether it stays so; how things
    /// stand, where that has changed since.
    pub(super) fn ask_to_leave(self) -> Option<Prompt> {
        let left = self.state.left.as_ref()?;
        let of_run = |ask| Prompt { ask: Ask::Interruption(ask), step: None };
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
        if self.verification(hold)?.released.is_none() || self.is_ended(hold) {
            return None;
        }
        self.ask_again(self.ender(hold)?)
    }

    /// The hold point that ends what another one put in force.
    pub fn ender(self, hold: &Name) -> Option<&'run Name> {
        let applies =
            |name: &&Name| self.book.step_of_hold(name).is_some_and(|step| self.applies(step).is_yes());
        self.enders(hold).find(applies).or_else(|| self.enders(hold).next())
    }

    fn is_state_changed(self, left: &Left) -> bool {
        let holds = self.book.procedure.holds().iter().filter(|(_, hold)| !hold.ends.is_empty());
        let ended = holds.filter_map(|(name, _)| self.released_seq(name)).max().unwrap_or_default();
        let told = self.state.interruption.found.as_ref().map_or(left.stamp.seq, |(_, stamp)| stamp.seq);
        ended > left.stamp.seq.max(told)
    }
}
