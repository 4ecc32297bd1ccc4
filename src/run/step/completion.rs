//! When things were done: the entries that make a step complete, and those that open it again.

use crate::procedure::{Name, Step};
use crate::run::stamp::Stamp;
use crate::run::view::View;
use crate::run::work::facts::Said;
use crate::run::work::part::Part;
use crate::run::work::taken::Taken;
use crate::run::work::tree::PassEnd;

impl<'run> View<'run> {
    /// The newest attempt at a reading at its nearest occurrence, also when it is to be taken again.
    pub fn latest(self, reading: &Name) -> Option<&'run Taken> {
        self.entered(reading)?.latest()
    }

    /// The last entry that changed a reading or a value of the vehicle; 0 where nothing was entered.
    pub(in crate::run) fn changed(self, name: &Name) -> u64 {
        let taken = self.entered(name).map(|attempts| attempts.taken.as_slice()).unwrap_or_default();
        let read = taken.iter().map(|taken| taken.stamp.seq).max();
        read.or_else(|| self.state.vehicle.get(name).map(|given| given.stamp.seq)).unwrap_or_default()
    }

    /// The last entry with which something of a step itself was done, whatever was corrected since.
    pub(in crate::run) fn own_work(self, step: &Step) -> Option<&'run Stamp> {
        let said = self.said(step.id);
        let made = |name| {
            let attempts = self.entered(name)?;
            attempts.made(attempts.latest()?.place).map(|taken| &taken.stamp)
        };
        let read = step.takes.iter().filter_map(made);
        let acts = said.acts.iter().filter(|act| act.is_work()).map(|act| &act.stamp);
        let accepted = said.accepted.iter().map(|(_, accepted)| &accepted.stamp);
        read.chain(acts).chain(accepted).chain(&said.done).max_by_key(|stamp| stamp.seq)
    }

    /// The last entry of work at a step or its parts, a release among it.
    pub(in crate::run) fn last_touched(self, step: &Step) -> Option<u64> {
        let own = self.own_work(step).map(|stamp| stamp.seq);
        let released = step.hold.as_ref().and_then(|hold| self.verification_of(hold, step.id)?.released);
        let parts = step.groups.iter().flat_map(|group| self.steps_of(group));
        parts
            .filter_map(|part| self.last_touched(part))
            .chain(own)
            .chain(released.map(|stamp| stamp.seq))
            .max()
    }

    /// When the work of one pass of a step was done, whoever has still to look at it.
    pub(in crate::run) fn worked(self, step: &Step) -> Option<Stamp> {
        if self.is_not_applicable(step) { None } else { self.all_worked(step) }
    }

    /// The same, also where it does not apply any more.
    fn all_worked(self, step: &Step) -> Option<Stamp> {
        if !self.is_worked(step) {
            return None;
        }
        let hold = step.hold.as_ref().and_then(|hold| self.verification_of(hold, step.id)?.first);
        let parts = step.groups.iter().flat_map(|group| self.steps_of(group));
        let parts = parts.filter_map(|part| self.all_done(part));
        self.own_work(step).cloned().into_iter().chain(hold).chain(parts).max_by_key(|stamp| stamp.seq)
    }

    /// When nothing was left to do of a step any more; none where something is, or where it does not apply.
    pub fn completed(self, step: &Step) -> Option<Stamp> {
        if self.is_not_applicable(step) { None } else { self.all_done(step) }
    }

    /// The same, also where it does not apply any more: its pass was given up, or what it was done under was corrected.
    pub fn all_done(self, step: &Step) -> Option<Stamp> {
        if !self.is_complete(step) {
            return None;
        }
        let said = self.said(step.id);
        let looks = said.signed_off.iter().chain(said.checked.iter().map(|(_, stamp)| stamp)).cloned();
        let ending = step.repeat.as_ref().and_then(|_| self.find(Part::Step(step.id)));
        let ending =
            ending.and_then(|at| self.state.tree.get(at).end.as_ref()).map(|ending| ending.stamp.clone());
        self.all_worked(step).into_iter().chain(looks).chain(ending).max_by_key(|stamp| stamp.seq)
    }

    /// Whether anything of a step or its parts was done here.
    pub fn is_touched(self, step: &Step) -> bool {
        let said = self.said(step.id);
        let own = said.done.is_some()
            || !said.acts.is_empty()
            || !said.hold.is_empty()
            || said.readings.iter().any(|(_, attempts)| !attempts.taken.is_empty());
        let mut parts = step.groups.iter().flat_map(|group| self.steps_of(group));
        own || parts.any(|part| self.is_touched(part))
    }

    pub(in crate::run) fn misses(self, step: &Step, wait: &Name) -> bool {
        let said = self.said(step.id);
        let missed = Said::last(&said.missed, wait).map(|stamp| stamp.seq);
        let done = self.own_work(step).map(|stamp| stamp.seq);
        missed.is_some_and(|missed| done.is_none_or(|done| done > missed))
    }

    /// The entry with which a step that was done, or what it rests on, was opened again; none where it was not.
    pub(in crate::run) fn reopened(self, step: &Step) -> Option<u64> {
        let said = self.said(step.id);
        let again = said.readings.iter().filter(|(name, attempts)| {
            attempts.is_again() && self.judge(name).is_some_and(|judged| judged.judgement.lets_go_on())
        });
        let again = again.filter_map(|(_, attempts)| attempts.again.last()).map(|(stamp, _)| stamp.seq);
        let loosened = said.acts.iter().filter(|act| act.is_loosened()).map(|act| act.stamp.seq);
        let held = step.hold.as_ref().filter(|hold| !self.is_passed(hold, step.id));
        let held = held.and_then(|hold| self.verification_of(hold, step.id)?.released).map(|stamp| stamp.seq);
        again.chain(loosened).chain(held).chain(self.begun_anew(step)).max()
    }

    /// The entry with which a step, or one that it is a part of, was begun anew by itself.
    fn begun_anew(self, step: &Step) -> Option<u64> {
        let tree = &self.state.tree;
        let part = Part::Step(step.id);
        let around = self.find(part.around(&self.book.procedure)?)?;
        let turns = tree.turns(around, part);
        let here = self.find(part).and_then(|here| turns.binary_search(&here).ok());
        let before = turns.get(..here.unwrap_or(turns.len())).and_then(<[_]>::last);
        let own = before.and_then(|before| tree.get(*before).end.as_ref());
        let own =
            own.filter(|ending| matches!(ending.how, PassEnd::SetAside(_))).map(|ending| ending.stamp.seq);
        own.or_else(|| self.begun_anew(self.book.procedure.step(step.parent?)?))
    }
}
