//! Coming back: how long nobody was there, how things stand, and which of the last steps are looked at again.

use jiff::SignedDuration;

use crate::procedure::{Name, Step, StepId};
use crate::run::apply::Next;
use crate::run::prompt::{Ask, Prompt};
use crate::run::readings::judge::Judgement;
use crate::run::sitting::event::InterruptionAsk;
use crate::run::sitting::facts::Away;
use crate::run::state::Sitting;
use crate::run::view::View;

/// After this time the last steps are looked at again.
const LONG: SignedDuration = SignedDuration::from_hours(1);

/// How far a clock may step back without anybody having set it: more than any correction over a network.
const CLOCK_STEP: SignedDuration = SignedDuration::from_mins(1);

/// How many of the last steps are told, and looked at again.
const LAST_STEPS: usize = 3;

impl Away {
    /// How long it was; below zero where the clock was set back.
    pub fn lasted(&self) -> SignedDuration {
        self.since.at.duration_until(&self.until)
    }

    /// Whether so much time has passed, or may have, that the last steps are looked at again.
    pub fn is_long(&self) -> bool {
        let lasted = self.lasted();
        lasted >= LONG || lasted < -CLOCK_STEP
    }
}

impl Next<'_> {
    /// Notes, when a run is taken up again, since when nobody was there. A sitting that was broken off before its brief
    /// was read was no sitting.
    pub(in crate::run) fn note_absence(&mut self) {
        let facts = &self.state.interruption;
        let since = match (self.state.sitting, &facts.away) {
            (Sitting::Briefing, Some(away)) => Some(away.since.clone()),
            _ => self.state.last.clone(),
        };
        if self.state.sitting == Sitting::Working {
            self.state.interruption.found = None;
        }
        self.state.interruption.making_safe = None;
        self.state.interruption.away = since.map(|since| Away { since, until: self.stamp.at.clone() });
    }
}

impl<'run> View<'run> {
    /// The steps that are looked at again when the run is taken up now: after a long time the last that were done. Steps of
    /// an earlier absence that nobody has looked at since stay.
    pub(in crate::run) fn look_again(self) -> Vec<StepId> {
        let facts = &self.state.interruption;
        let since = match (self.state.sitting, &facts.away) {
            (Sitting::Briefing, Some(away)) => Some(&away.since),
            _ => self.state.last.as_ref(),
        };
        let away = since.map(|since| Away { since: since.clone(), until: self.now.clone() });
        if !away.is_some_and(|away| away.is_long()) {
            return facts.recheck.clone();
        }
        let last = self.last_done().into_iter().filter(|step| !self.is_verified_anyway(step));
        last.filter(|step| self.is_judged(step)).map(|step| step.id).collect()
    }

    /// Whether the state of something was judged at a step, which can have changed since. An act stays done.
    fn is_judged(self, step: &Step) -> bool {
        let judged = step.takes.iter().chain(&step.computes).filter_map(|name| self.judge(name));
        let mut judgements = judged.map(|judged| judged.judgement);
        judgements.any(|judgement| !matches!(judgement.own(), Judgement::InformationOnly))
    }

    /// The last steps that were done, the earliest of them first; a step with parts is told by its parts.
    pub fn last_done(self) -> Vec<&'run Step> {
        let steps = self.book.procedure.steps().iter().filter(|step| step.groups.is_empty());
        let mut done: Vec<(u64, &Step)> =
            steps.filter_map(|step| Some((self.completed(step)?.seq, step))).collect();
        done.sort_by_key(|(seq, step)| (*seq, step.id));
        let first = done.len().saturating_sub(LAST_STEPS);
        done.split_off(first).into_iter().map(|(_, step)| step).collect()
    }

    /// A hold point that has lapsed is verified again before any work under it.
    fn is_verified_anyway(self, step: &Step) -> bool {
        let lapses = |hold: &Name| {
            self.lapse(hold).is_some()
                || self.book.procedure.hold(hold).is_some_and(|hold| hold.lapses.on_resume)
        };
        step.hold.as_ref().is_some_and(lapses)
    }

    /// Before the brief: how do things stand, where nobody said so when the sitting ended. Before the work has begun
    /// there is nothing to say.
    pub(in crate::run) fn ask_standing(self) -> Option<InterruptionAsk> {
        let said = self.state.left.is_some() || self.state.interruption.found.is_some();
        (!said && self.ask_to_begin().is_none()).then_some(InterruptionAsk::Standing)
    }

    /// Whether a step is still as it was, asked where it was done: under its hold points, after its hazards.
    pub(in crate::run) fn ask_recheck(self) -> Option<Prompt> {
        let listed = self.state.interruption.recheck.iter();
        let step =
            listed.filter_map(|step| self.book.procedure.step(*step)).find(|step| self.is_complete(step))?;
        let governing = self.governing(step).into_iter();
        let mut shut = governing.filter(|(hold, at)| !self.stands_at(hold, at.id) && !self.is_ended(hold));
        let again = shut.find_map(|(hold, at)| self.ask_again(hold, at));
        let hazard = || Some(self.prompt(self.ask_hazard(step)?, Some(step.id)));
        let still_so = || self.prompt(Ask::Interruption(InterruptionAsk::StillSo(step.id)), None);
        Some(again.or_else(hazard).unwrap_or_else(still_so))
    }
}
