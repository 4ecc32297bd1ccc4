//! Hold points: which stand, which have lapsed, which protections are in force.

use jiff::{SignedDuration, ZonedDateTime};

use super::event::Stamp;
use super::prompt::Ask;
use super::state::Verification;
use super::view::View;
use crate::procedure::{Hold, Name, Step};
use crate::quantity::Quantity;

/// How far a clock may step back without anybody having set it: more than any correction over a network.
const CLOCK_STEP: SignedDuration = SignedDuration::from_mins(1);

/// A protection that a hold point has put in force and no other has ended.
#[derive(Clone, Debug, PartialEq)]
pub struct Protection<'run> {
    /// The hold point.
    pub hold: &'run Name,
    /// What protects.
    pub what: &'run str,
    /// Since when.
    pub since: &'run Stamp,
    /// Why it must be verified again before work goes on under it.
    pub lapsed: Option<String>,
}

impl<'run> View<'run> {
    /// The protections in force, also those that have lapsed and must be verified again.
    pub fn protections(self) -> Vec<Protection<'run>> {
        let holds = self.book.procedure.holds().iter();
        holds.filter_map(|(name, hold)| self.protection(name, hold)).collect()
    }

    fn protection(self, name: &'run Name, hold: &'run Hold) -> Option<Protection<'run>> {
        let what = hold.protection.as_deref()?;
        let since = self.verification(name)?.released.as_ref()?;
        (!self.is_ended(name)).then(|| Protection { hold: name, what, since, lapsed: self.lapse(name) })
    }

    /// Why a released hold point no longer stands; `None` while it stands, or before its first release.
    pub fn lapse(self, name: &Name) -> Option<String> {
        let verification = self.verification(name)?;
        let released = verification.released.as_ref()?;
        let lapsed = verification.lapsed.clone().or_else(|| self.overdue(name, released));
        lapsed.or_else(|| self.unmet_reading(name))
    }

    /// A reading of a hold point that was corrected, or whose limits have moved, so that it does not pass any more.
    fn unmet_reading(self, name: &Name) -> Option<String> {
        let reading =
            self.book.procedure.hold(name)?.readings.iter().find(|name| !self.result_stands(name))?;
        let what = self.book.procedure.called(reading);
        Some(format!("{what}: not as required any more"))
    }

    /// A clock that stands before the release was set back, and says nothing of how much time has passed.
    fn overdue(self, name: &Name, released: &Stamp) -> Option<String> {
        let after = self.book.procedure.hold(name)?.lapses.after.as_ref()?;
        if *self.now >= later(&released.at, after) {
            return Some(format!("it lapses after {after}"));
        }
        let ahead = self.now.duration_until(&released.at);
        (ahead > CLOCK_STEP).then(|| format!("it lapses after {after}, and the clock was set back"))
    }

    /// Whether work may go on under a hold point.
    pub fn stands(self, name: &Name) -> bool {
        let released = self.verification(name).is_some_and(|verification| verification.released.is_some());
        released && self.lapse(name).is_none() && !self.is_ended(name)
    }

    /// Whether another hold point has ended what this one put in force.
    pub fn is_ended(self, name: &Name) -> bool {
        let Some(released) = self.released_seq(name) else {
            return false;
        };
        self.enders(name).any(|ender| self.released_seq(ender).is_some_and(|ended| ended > released))
    }

    /// Whether a hold point was released, its readings still pass, no new verification of it is half done that its step
    /// has to wait for, and nothing that it ends was put in force again since.
    pub fn is_passed(self, name: &Name) -> bool {
        let (Some(hold), Some(released)) = (self.book.procedure.hold(name), self.released_seq(name)) else {
            return false;
        };
        let step = self.book.step_of_hold(name);
        let begins = step.map_or(0, |step| self.state.begins.of_step(step.id));
        // What lapses does not open its step again; once that is open, it stays so until all have released.
        let is_open = step.is_none_or(|step| !self.state.completed.contains_key(&step.id));
        released > begins
            && hold.ends.iter().all(|ended| self.released_seq(ended).is_none_or(|begun| begun < released))
            && hold.readings.iter().all(|reading| self.result_stands(reading))
            && !((self.is_ended(name) || is_open)
                && self.verification(name).is_some_and(Verification::is_begun_again))
    }

    /// The hold points that a step is done under: those before it that no hold point before it ends.
    pub fn governing(self, step: &Step) -> Vec<&'run Name> {
        let before = |name: &Name| {
            self.book.step_of_hold(name).is_some_and(|at| at.id < step.id && self.applies(at).is_yes())
        };
        let holds = self.book.procedure.holds().names();
        holds.filter(|name| before(name) && !self.enders(name).any(before)).collect()
    }

    /// What is still to be asked before a hold point stands. `None` when it does.
    pub(super) fn ask_hold(self, name: &Name) -> Option<Ask> {
        let hold = self.book.procedure.hold(name)?;
        let empty = Verification::default();
        let verification = self.open_verification(name).unwrap_or(&empty);
        let item = (0..hold.confirm.len()).find(|item| !verification.confirmed.contains_key(item));
        item.map(|item| Ask::Confirm { hold: name.clone(), item })
            .or_else(|| hold.readings.iter().find_map(|reading| self.ask_hold_reading(verification, reading)))
            .or_else(|| {
                let role = releasers(hold).find(|role| !verification.signed.contains_key(*role))?;
                Some(Ask::Release { hold: name.clone(), role: role.clone() })
            })
    }

    fn ask_hold_reading(self, verification: &Verification, reading: &Name) -> Option<Ask> {
        if !verification.read.contains(reading) || self.state.again.contains(reading) {
            return self.ask_instrument_of(reading).or_else(|| Some(Ask::Reading(reading.clone())));
        }
        if let Some(ask) = self.ask_second(reading) {
            return Some(ask);
        }
        (!self.result_stands(reading)).then(|| Ask::Failed(reading.clone()))
    }

    /// The verification that is under way: none where the hold point was wholly released and must be verified
    /// from the start.
    pub(super) fn open_verification(self, name: &Name) -> Option<&'run Verification> {
        self.verification(name).filter(|verification| verification.is_open())
    }

    pub(super) fn verification(self, name: &Name) -> Option<&'run Verification> {
        self.state.holds.get(name)
    }

    pub(super) fn enders(self, name: &Name) -> impl Iterator<Item = &'run Name> {
        let holds = self.book.procedure.holds().iter();
        holds.filter(move |(_, hold)| hold.ends.contains(name)).map(|(ender, _)| ender)
    }

    pub(super) fn released_seq(self, name: &Name) -> Option<u64> {
        Some(self.verification(name)?.released.as_ref()?.seq)
    }
}

impl Verification {
    /// Whether confirmations are being gathered, in contrast to a hold point that was wholly released.
    pub fn is_open(&self) -> bool {
        self.released.is_none() || self.lapsed.is_some()
    }

    /// Whether a new verification was begun after a release and is not finished.
    fn is_begun_again(&self) -> bool {
        let bare = Self { released: self.released.clone(), lapsed: self.lapsed.clone(), ..Self::default() };
        self.lapsed.is_some() && *self != bare
    }

    /// Starts over, because of `why`.
    pub(super) fn reopen(&mut self, why: &str) {
        let released = self.released.take();
        *self = Self { lapsed: released.as_ref().map(|_| why.to_owned()), released, ..Self::default() };
    }
}

/// The roles that must release a hold point, in order.
pub(super) fn releasers(hold: &Hold) -> impl Iterator<Item = &Name> + Clone {
    std::iter::once(&hold.release).chain(&hold.second)
}

/// A moment this much later; a time too long to count never comes.
pub(crate) fn later(from: &ZonedDateTime, by: &Quantity) -> ZonedDateTime {
    let seconds = by.base().to_f64();
    let duration = SignedDuration::try_from_secs_f64(seconds).unwrap_or(SignedDuration::MAX);
    from.checked_add(duration)
        .unwrap_or_else(|_| jiff::Timestamp::MAX.to_zoned_datetime(from.time_zone().clone()))
}
