//! Limits that stay in force over several steps.

use crate::procedure::{Name, Step};
use crate::quantity::{Outcome, Quantity, judge};
use crate::run::stamp::Stamp;
use crate::run::view::View;

/// A limit in force.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitInForce<'run> {
    /// What is watched.
    pub what: &'run str,
    /// Since when.
    pub since: Stamp,
}

impl<'run> View<'run> {
    /// The limits in force over several steps, in the order of the file.
    pub fn limits_in_force(self) -> Vec<LimitInForce<'run>> {
        let watches = self.book.procedure.watches().iter();
        let in_force = watches.filter_map(|(name, watch)| {
            let since = self.in_force_since(name)?;
            Some(LimitInForce { what: &watch.what, since })
        });
        in_force.collect()
    }

    /// Since when a limit is in force; none where it is not, or not any more.
    fn in_force_since(self, watch: &Name) -> Option<Stamp> {
        let since = self.completed(self.first_step(|step| step.watch_begins.contains(watch))?)?;
        let let_go =
            self.first_step(|step| step.watch_ends.contains(watch)).and_then(|step| self.let_go(step));
        let_go.is_none_or(|let_go| let_go < since.seq).then_some(since)
    }

    /// The limits that were in force over a reading when it was taken.
    pub fn watches_at(self, reading: &Name, place: u64) -> Vec<&'run Name> {
        let watches = self.book.procedure.watches().iter();
        let watches = watches.filter(|(_, watch)| watch.readings.contains(reading));
        watches.map(|(name, _)| name).filter(|name| self.was_in_force(name, reading, place)).collect()
    }

    /// Whether a limit was in force over a reading when it was taken. Nothing is judged to find that out: by what was done
    /// before, and in which order. Whoever read on after the last step of the limit without having put that off let it go.
    fn was_in_force(self, watch: &Name, reading: &Name, place: u64) -> bool {
        let begins = self.first_step(|step| step.watch_begins.contains(watch));
        let since = begins.and_then(|step| self.last_touched(step));
        let let_go = self.first_step(|step| step.watch_ends.contains(watch)).is_some_and(|ends| {
            let is_later = self.book.procedure.home(reading).is_some_and(|home| home > ends.id);
            match self.last_touched(ends) {
                Some(ended) => ended < place && since.is_some_and(|since| since < ended),
                None => is_later && self.said(ends.id).put_off.is_none(),
            }
        });
        since.is_some_and(|since| since < place) && !let_go
    }

    pub(in crate::run) fn first_step(self, is: impl Fn(&Step) -> bool) -> Option<&'run Step> {
        self.book.procedure.steps().iter().find(|step| is(step))
    }

    /// The entry at which the end of a limit in force came: its last step was done, or does not apply and all before it
    /// is settled.
    pub(in crate::run) fn let_go(self, step: &Step) -> Option<u64> {
        if let Some(stamp) = self.completed(step) {
            return Some(stamp.seq);
        }
        if !self.is_not_applicable(step) {
            return None;
        }
        let before = self.book.procedure.steps().iter().take_while(|other| other.id < step.id);
        let mut last = 0;
        for other in before {
            if !self.is_settled(other) {
                return None;
            }
            last = last.max(self.completed(other).map_or(0, |stamp| stamp.seq));
        }
        Some(last)
    }

    /// How a result breaks one of these limits in force; none where it keeps them all.
    pub(in crate::run) fn breaks_watch(self, result: &Quantity, watches: &[&Name]) -> Option<String> {
        watches.iter().find_map(|name| self.breaks(result, name))
    }

    fn breaks(self, result: &Quantity, name: &Name) -> Option<String> {
        let watch = self.book.procedure.watch(name)?;
        match crate::run::readings::judge::limits_of(&watch.criterion, &self.known()) {
            Ok(super::judge::InForce::Limits(limits)) => {
                let verdict = judge(result, &limits).ok()?;
                let why = verdict.why().unwrap_or_default();
                (verdict.outcome == Outcome::Fail).then(|| format!("{why} in force ({})", watch.what))
            }
            Ok(_) => None,
            Err(_) => Some(format!("the limit in force is not known ({})", watch.what)),
        }
    }
}
