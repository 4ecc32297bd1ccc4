//! Which hold points stand, which have lapsed, which protections are in force.

use crate::procedure::{Hold, Name, Step, StepId};
use crate::run::holds::verification::overdue;
use crate::run::stamp::{InheritedProtection, Stamp};
use crate::run::view::View;
use crate::run::work::part::Part;
use crate::run::work::tree::{OccurrenceId, PassEnd};

/// A protection that a hold point has put in force and no other has ended.
#[derive(Clone, Debug, PartialEq)]
pub struct Protection<'run> {
    /// The hold point.
    pub hold: &'run Name,
    /// What protects.
    pub what: &'run str,
    /// The same in a word or two.
    pub short: &'run str,
    /// Since when.
    pub since: Stamp,
    /// Why it must be verified again before work goes on under it.
    pub lapsed: Option<String>,
}

impl<'run> View<'run> {
    /// The protections in force, also those that have lapsed and must be verified again.
    pub fn protections(self) -> Vec<Protection<'run>> {
        let holds = self.book.procedure.holds().iter();
        holds.filter_map(|(name, hold)| self.protection(name, hold)).collect()
    }

    /// The protections that an earlier run of the job left in force and that this one has not looked at again itself.
    pub fn inherited_protections(self) -> impl Iterator<Item = &'run InheritedProtection> {
        let inherited = self.state.start.iter().flat_map(|(start, _)| &start.inherited.protections);
        inherited.filter(move |protection| {
            let own = self.goes_on_under(protection);
            let is_told = || self.protections().iter().any(|own| own.what == protection.what);
            !is_told()
                && own.is_none_or(|hold| self.last_release(hold).is_none())
                && !self.is_ended_here(protection)
        })
    }

    /// Whether a hold point of this run has ended a protection that an earlier one left.
    fn is_ended_here(self, protection: &InheritedProtection) -> bool {
        let mut holds = self.book.procedure.holds().iter();
        holds.any(|(name, hold)| {
            let mut ended = hold.ends_earlier.iter();
            ended.any(|from| from.result == protection.hold && from.procedure == protection.procedure)
                && self.last_release(name).is_some()
        })
    }

    /// The hold point of this procedure that goes on under a protection handed on.
    fn goes_on_under(self, protection: &InheritedProtection) -> Option<&'run Name> {
        let mut own = self.book.procedure.holds().iter();
        let is_own = |hold: &Hold| hold.is_handed_on_as(&protection.hold, &protection.procedure);
        own.find(|(_, hold)| is_own(hold)).map(|(name, _)| name)
    }

    /// What a hold point goes on under, as the job handed it on; nothing where it was not handed on, or not in a job.
    pub fn handed_on_to(self, hold: &Hold) -> Option<&'run InheritedProtection> {
        let mut inherited = self.state.start.iter().flat_map(|(start, _)| &start.inherited.protections);
        inherited.find(|protection| hold.is_handed_on_as(&protection.hold, &protection.procedure))
    }

    fn protection(self, name: &'run Name, hold: &'run Hold) -> Option<Protection<'run>> {
        let what = hold.protection.as_deref()?;
        let since = self.last_release(name)?.1;
        let short = hold.short.as_deref().unwrap_or(what);
        (!self.is_ended(name)).then(|| Protection {
            hold: name,
            what,
            short,
            since,
            lapsed: self.lapse(name),
        })
    }

    /// Where and when a hold point was last wholly released.
    pub fn last_release(self, name: &Name) -> Option<(OccurrenceId, Stamp)> {
        let places = self.state.held_at.get(name)?.iter().rev();
        places.copied().find_map(|at| Some((at, self.verification_at(name, at).released?)))
    }

    /// Why a released hold point no longer stands; `None` while it stands, or before its first release.
    pub fn lapse(self, name: &Name) -> Option<String> {
        let (at, released) = self.last_release(name)?;
        let tree = &self.state.tree;
        let part = tree.get(at).part;
        let steps = self.book.procedure.held_at(name);
        // What was verified in an earlier pass, or before something was begun anew, does not stand for the present.
        if steps.len() == 1 && self.inside(OccurrenceId::RUN).find(part) != Some(at) {
            return Some(self.passed_over(at));
        }
        self.lapse_at(name, at, &released)
    }

    /// Why a hold point has to be verified again at one of its steps; nothing where it stands, or was not released there.
    pub fn lapse_of(self, name: &Name, step: StepId) -> Option<String> {
        if self.book.procedure.held_at(name).len() < 2 {
            return self.lapse(name);
        }
        let at = self.find(Part::Step(step))?;
        let released = self.verification_at(name, at).released?;
        self.lapse_at(name, at, &released)
    }

    fn passed_over(self, at: OccurrenceId) -> String {
        let tree = &self.state.tree;
        let ending = tree.outwards(at).find_map(|at| tree.get(at).end.as_ref());
        match ending.map(|ending| &ending.how) {
            Some(PassEnd::SetAside(reason)) => reason.clone(),
            _ => "a new pass".to_owned(),
        }
    }

    pub(in crate::run) fn lapse_at(self, name: &Name, at: OccurrenceId, released: &Stamp) -> Option<String> {
        let hold = self.book.procedure.hold(name)?;
        let lapsed = self.verification_at(name, at).lapsed.or_else(|| overdue(hold, released, self.now));
        lapsed.or_else(|| self.inside(at).unmet_reading(hold))
    }

    /// What a hold point takes and was corrected, or whose limits have moved, so that it does not pass any more.
    pub(in crate::run) fn unmet_reading(self, hold: &Hold) -> Option<String> {
        let reading = hold.readings.iter().find(|name| !self.result_stands(name));
        let unmet = reading.or_else(|| hold.fasteners.iter().find(|group| !self.is_good_group(group)))?;
        let what = self.book.procedure.called(unmet);
        Some(format!("{what}: not as required any more"))
    }

    /// Whether work may go on under a hold point as it was verified at one of its steps.
    pub fn stands_at(self, name: &Name, step: StepId) -> bool {
        let Some(at) = self.find(Part::Step(step)) else { return false };
        let Some(released) = self.verification_at(name, at).released else { return false };
        self.lapse_at(name, at, &released).is_none() && !self.is_ended_since(name, released.seq)
    }

    /// Whether work may go on under a hold point.
    pub fn stands(self, name: &Name) -> bool {
        self.last_release(name).is_some() && self.lapse(name).is_none() && !self.is_ended(name)
    }

    /// Whether another hold point has ended what this one put in force.
    pub fn is_ended(self, name: &Name) -> bool {
        self.released_seq(name).is_some_and(|released| self.is_ended_since(name, released))
    }

    pub(in crate::run) fn is_ended_since(self, name: &Name, released: u64) -> bool {
        let mut enders = self.book.procedure.enders(name).iter();
        enders.any(|ender| self.released_seq(ender).is_some_and(|ended| ended > released))
    }

    /// Whether the hold point of a step was released there, its readings still pass, no new verification of it is half
    /// done that its step has to wait for, and nothing that it ends was put in force again since.
    pub(in crate::run) fn is_passed(self, name: &Name, step: StepId) -> bool {
        let (Some(hold), Some(at)) = (self.book.procedure.hold(name), self.find(Part::Step(step))) else {
            return false;
        };
        let verification = self.verification_at(name, at);
        let Some(released) = verification.released.as_ref().map(|released| released.seq) else {
            return false;
        };
        // What lapses does not open its step again; once something is read anew, it is open until all have released.
        let is_begun_again = verification.lapsed.is_some() && verification.is_begun();
        hold.ends.iter().all(|ended| self.released_before(ended, step).is_none_or(|begun| begun < released))
            && self.inside(at).unmet_reading(hold).is_none()
            && !(is_begun_again && (self.is_ended_since(name, released) || verification.is_read()))
    }

    /// The hold points that a step is done under, each with the step at which it is verified: those before it that no
    /// hold point before it ends. A step that verifies one anew does so from the start, and needs no earlier release of it.
    pub fn governing(self, step: &Step) -> Vec<(&'run Name, &'run Step)> {
        let holds = self.book.procedure.holds().names();
        holds.filter_map(|name| self.governed_by(name, step)).collect()
    }

    fn governed_by(self, name: &'run Name, step: &Step) -> Option<(&'run Name, &'run Step)> {
        let procedure = &self.book.procedure;
        let before = |name: &Name| {
            let steps = procedure.held_at(name).iter().rev();
            let mut steps = steps.filter_map(|at| procedure.step(*at));
            steps.find(|at| at.id < step.id && self.is_gone_to(name, at))
        };
        let at = before(name).filter(|_| step.hold.as_ref() != Some(name))?;
        let ended = procedure.enders(name).iter().filter_map(before).any(|ender| ender.id > at.id);
        (!ended).then_some((name, at))
    }

    /// Whether the way leads to a step that verifies a hold point: of what was given up before it was released nothing is asked.
    fn is_gone_to(self, name: &Name, at: &Step) -> bool {
        let was_released = || self.verification_of(name, at.id).is_some_and(|held| held.released.is_some());
        self.applies(at).is_yes() && (!self.is_not_applicable(at) || was_released())
    }

    /// When a hold point was last wholly released at a step before this one.
    pub(in crate::run) fn released_before(self, name: &Name, step: StepId) -> Option<u64> {
        let places = self.state.held_at.get(name)?.iter().rev().copied();
        let is_before =
            |at: &OccurrenceId| matches!(self.state.tree.get(*at).part, Part::Step(at) if at < step);
        let releases = places.filter(is_before).filter_map(|at| self.verification_at(name, at).released);
        releases.map(|stamp| stamp.seq).max()
    }

    pub(in crate::run) fn released_seq(self, name: &Name) -> Option<u64> {
        Some(self.last_release(name)?.1.seq)
    }
}
