//! Hold points: which stand, which have lapsed, which protections are in force.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use jiff::{SignedDuration, ZonedDateTime};

use super::event::Stamp;
use super::prompt::Ask;
use super::state::{LapseOf, Origin};
use super::view::View;
use super::work::{HoldWord, OccurrenceId, Part, PassEnd};
use crate::procedure::{Hold, Name, Step, StepId};
use crate::quantity::Quantity;

/// How far a clock may step back without anybody having set it: more than any correction over a network.
const CLOCK_STEP: SignedDuration = SignedDuration::from_mins(1);

/// How far a hold point is verified at one occurrence.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Verification {
    /// Statements confirmed since it was last opened, by their place.
    pub confirmed: BTreeMap<usize, Stamp>,
    /// Statements found untrue since it was last opened, and how it is instead.
    pub contradicted: BTreeMap<usize, String>,
    /// Its readings taken since it was last opened.
    pub read: BTreeSet<Name>,
    /// Who has released it since it was last opened.
    pub signed: BTreeMap<Name, Stamp>,
    /// When it was first wholly released.
    pub first: Option<Stamp>,
    /// When it was last wholly released; stays when it lapses.
    pub released: Option<Stamp>,
    /// Why it must be verified again, since its last release.
    pub lapsed: Option<String>,
}

/// A protection that a hold point has put in force and no other has ended.
#[derive(Clone, Debug, PartialEq)]
pub struct Protection<'run> {
    /// The hold point.
    pub hold: &'run Name,
    /// What protects.
    pub what: &'run str,
    /// Since when.
    pub since: Stamp,
    /// Why it must be verified again before work goes on under it.
    pub lapsed: Option<String>,
}

/// Something that bears on a verification.
enum Bears<'run> {
    Said(&'run HoldWord, &'run Stamp),
    Read(&'run Name, &'run Stamp),
    Lapses(Cow<'run, str>),
}

impl Verification {
    /// Whether confirmations are being gathered, in contrast to a hold point that was wholly released.
    pub fn is_open(&self) -> bool {
        self.released.is_none() || self.lapsed.is_some()
    }

    /// Whether anything was said at it since it was opened.
    pub(super) fn is_begun(&self) -> bool {
        !(self.confirmed.is_empty()
            && self.contradicted.is_empty()
            && self.read.is_empty()
            && self.signed.is_empty())
    }

    /// Starts over, because of `why`.
    fn reopen(&mut self, why: &str) {
        let (first, released) = (self.first.take(), self.released.take());
        let lapsed = released.as_ref().map(|_| why.to_owned());
        *self = Self { first, released, lapsed, ..Self::default() };
    }

    /// What was set anew to read it again may have moved what was confirmed, and is not what was released.
    fn read_at(&mut self, reading: &Name, hold: &Hold) {
        if !self.read.insert(reading.clone()) {
            self.confirmed.retain(|item, _| !hold.anew.contains(item));
            self.signed.clear();
        }
    }

    fn say(&mut self, word: &HoldWord, stamp: &Stamp, hold: &Hold) {
        match word {
            HoldWord::Confirmed(item) => {
                self.contradicted.remove(item);
                self.confirmed.insert(*item, stamp.clone());
            }
            HoldWord::Contradicted(item, state) => {
                self.contradicted.insert(*item, state.clone());
            }
            HoldWord::Released(role) => {
                self.signed.insert(role.clone(), stamp.clone());
                if releasers(hold).all(|role| self.signed.contains_key(role)) {
                    self.first.get_or_insert_with(|| stamp.clone());
                    self.released = Some(stamp.clone());
                    self.lapsed = None;
                }
            }
        }
    }
}

impl<'run> View<'run> {
    /// How far a hold point is verified at an occurrence of one of its steps.
    pub fn verification_at(self, name: &Name, at: OccurrenceId) -> Verification {
        self.verify_at(name, at, |_, _, _| {})
    }

    /// The same; what was verified before it was opened again is handed over, with the entry and why.
    pub(super) fn verify_at(
        self,
        name: &Name,
        at: OccurrenceId,
        mut over: impl FnMut(&Verification, u64, &str),
    ) -> Verification {
        let mut verification = Verification::default();
        let Some(hold) = self.book.procedure.hold(name) else { return verification };
        let mut bears = self.bearing(hold, at);
        bears.extend(self.ceilings_passed(name));
        bears.sort_by_key(|(seq, _)| *seq);
        for (seq, bears) in bears {
            let stamp = match &bears {
                Bears::Lapses(why) => {
                    over(&verification, seq, why);
                    verification.reopen(why);
                    continue;
                }
                Bears::Said(_, stamp) | Bears::Read(_, stamp) => *stamp,
            };
            if !verification.is_open() {
                let released = verification.released.clone();
                let overdue = released.and_then(|released| overdue(hold, &released, &stamp.at));
                let why = overdue.as_deref().unwrap_or("verified again");
                over(&verification, seq, why);
                verification.reopen(why);
            }
            match bears {
                Bears::Said(word, stamp) => verification.say(word, stamp, hold),
                Bears::Read(reading, _) => verification.read_at(reading, hold),
                Bears::Lapses(_) => {}
            }
        }
        verification
    }

    /// What was said at a hold point, what was read at it, and what it lapsed with.
    fn bearing(self, hold: &'run Hold, at: OccurrenceId) -> Vec<(u64, Bears<'run>)> {
        let occurrence = self.state.tree.get(at);
        let said = occurrence.said.hold.iter();
        let mut bears: Vec<_> =
            said.map(|said| (said.stamp.seq, Bears::Said(&said.word, &said.stamp))).collect();
        for reading in &hold.readings {
            let taken = occurrence.said.reading(reading).map(|attempts| attempts.taken.as_slice());
            let measured = taken.unwrap_or_default().iter().filter(|taken| taken.origin == Origin::Measured);
            bears.extend(measured.map(|taken| (taken.stamp.seq, Bears::Read(reading, &taken.stamp))));
        }
        let began = occurrence.began.as_ref().map_or(0, |began| began.seq);
        let lapses = self.state.lapses.iter().rev().take_while(|lapse| lapse.seq >= began);
        let lapses = lapses.filter(|lapse| match lapse.of {
            LapseOf::All => true,
            LapseOf::OnResume => hold.lapses.on_resume,
            LapseOf::WhenDisturbed => hold.lapses.when_disturbed,
            LapseOf::OnPeople => hold.lapses.on_people,
            LapseOf::After(step) => matches!(occurrence.part, Part::Step(own) if own > step),
        });
        bears.extend(lapses.map(|lapse| (lapse.seq, Bears::Lapses(Cow::Borrowed(&lapse.why)))));
        bears
    }

    /// A reading that passes what it must never pass opens its hold point. Nothing is read under an open one, so that it
    /// is the newest entry that counts, or a corrected one.
    fn ceilings_passed(self, name: &Name) -> Vec<(u64, Bears<'run>)> {
        let is_watched = |reading: &&Name| {
            let declared =
                self.book.procedure.reading(reading).and_then(|declared| declared.ceiling.as_ref());
            declared.is_some_and(|ceiling| ceiling.opens == *name)
        };
        let looked = if self.state.revised.is_some() { usize::MAX } else { 1 };
        let places = |reading: &Name| {
            let places = self.state.read_at.get(reading).map(Vec::as_slice).unwrap_or_default();
            places.iter().rev().take(looked).copied().collect::<Vec<_>>()
        };
        let readings = self.book.procedure.readings().names().filter(is_watched);
        let places =
            readings.flat_map(|reading| places(reading).into_iter().map(move |place| (reading, place)));
        places.filter_map(|(reading, place)| self.inside(place).went_beyond(reading)).collect()
    }

    /// That a reading went beyond what it must never pass, and when.
    fn went_beyond(self, reading: &Name) -> Option<(u64, Bears<'run>)> {
        let declared = self.book.procedure.reading(reading)?;
        let newest = self.latest(reading)?;
        let why = self.beyond(declared, &newest.value)?;
        let why = format!("{} was {}, {why}", self.book.procedure.called(reading), newest.value.shown());
        Some((newest.stamp.seq, Bears::Lapses(Cow::Owned(why))))
    }

    /// The protections in force, also those that have lapsed and must be verified again.
    pub fn protections(self) -> Vec<Protection<'run>> {
        let holds = self.book.procedure.holds().iter();
        holds.filter_map(|(name, hold)| self.protection(name, hold)).collect()
    }

    fn protection(self, name: &'run Name, hold: &'run Hold) -> Option<Protection<'run>> {
        let what = hold.protection.as_deref()?;
        let since = self.last_release(name)?.1;
        (!self.is_ended(name)).then(|| Protection { hold: name, what, since, lapsed: self.lapse(name) })
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

    fn lapse_at(self, name: &Name, at: OccurrenceId, released: &Stamp) -> Option<String> {
        let hold = self.book.procedure.hold(name)?;
        let lapsed = self.verification_at(name, at).lapsed.or_else(|| overdue(hold, released, self.now));
        lapsed.or_else(|| self.inside(at).unmet_reading(hold))
    }

    /// A reading of a hold point that was corrected, or whose limits have moved, so that it does not pass any more.
    fn unmet_reading(self, hold: &Hold) -> Option<String> {
        let reading = hold.readings.iter().find(|name| !self.result_stands(name))?;
        let what = self.book.procedure.called(reading);
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

    fn is_ended_since(self, name: &Name, released: u64) -> bool {
        let mut enders = self.book.procedure.enders(name).iter();
        enders.any(|ender| self.released_seq(ender).is_some_and(|ended| ended > released))
    }

    /// Whether the hold point of a step was released there, its readings still pass, no new verification of it is half
    /// done that its step has to wait for, and nothing that it ends was put in force again since.
    pub(super) fn is_passed(self, name: &Name, step: StepId) -> bool {
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
            && hold.readings.iter().all(|reading| self.inside(at).result_stands(reading))
            && !(is_begun_again && (self.is_ended_since(name, released) || !verification.read.is_empty()))
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
            steps.find(|at| at.id < step.id && self.applies(at).is_yes())
        };
        let at = before(name).filter(|_| step.hold.as_ref() != Some(name))?;
        let ended = procedure.enders(name).iter().filter_map(before).any(|ender| ender.id > at.id);
        (!ended).then_some((name, at))
    }

    /// What is still to be asked before a hold point stands at one of its steps. `None` when it does.
    pub(super) fn ask_hold(self, name: &Name, step: StepId) -> Option<Ask> {
        let hold = self.book.procedure.hold(name)?;
        let at = self.find(Part::Step(step));
        let verification = at.map(|at| self.verification_at(name, at)).filter(Verification::is_open);
        let verification = verification.unwrap_or_default();
        let item = (0..hold.confirm.len()).find(|item| !verification.confirmed.contains_key(item));
        item.map(|item| Ask::Confirm { hold: name.clone(), item })
            .or_else(|| {
                let here = at.map_or(self, |at| self.inside(at));
                hold.readings.iter().find_map(|reading| here.ask_hold_reading(&verification, reading))
            })
            .or_else(|| {
                let role = releasers(hold).find(|role| !verification.signed.contains_key(*role))?;
                Some(Ask::Release { hold: name.clone(), role: role.clone() })
            })
    }

    fn ask_hold_reading(self, verification: &Verification, reading: &Name) -> Option<Ask> {
        if !verification.read.contains(reading) || !self.is_taken(reading) {
            return self.ask_instrument_of(reading).or_else(|| Some(Ask::Reading(reading.clone())));
        }
        if let Some(ask) = self.ask_second(reading) {
            return Some(ask);
        }
        let failed = || (!self.result_stands(reading)).then(|| Ask::Failed(reading.clone()));
        self.ask_opinion(reading).or_else(failed)
    }

    /// The verification of a hold point that is under way at one of its steps: none where it was wholly released and
    /// must be verified from the start.
    pub(super) fn open_verification(self, name: &Name, step: StepId) -> Option<Verification> {
        self.verification_of(name, step).filter(Verification::is_open)
    }

    /// How far a hold point is verified at the nearest occurrence of one of its steps.
    pub fn verification_of(self, name: &Name, step: StepId) -> Option<Verification> {
        Some(self.verification_at(name, self.find(Part::Step(step))?))
    }

    /// When a hold point was last wholly released at a step before this one.
    fn released_before(self, name: &Name, step: StepId) -> Option<u64> {
        let places = self.state.held_at.get(name)?.iter().rev().copied();
        let is_before =
            |at: &OccurrenceId| matches!(self.state.tree.get(*at).part, Part::Step(at) if at < step);
        let releases = places.filter(is_before).filter_map(|at| self.verification_at(name, at).released);
        releases.map(|stamp| stamp.seq).max()
    }

    pub(super) fn released_seq(self, name: &Name) -> Option<u64> {
        Some(self.last_release(name)?.1.seq)
    }
}

/// A clock that stands before the release was set back, and says nothing of how much time has passed.
fn overdue(hold: &Hold, released: &Stamp, now: &ZonedDateTime) -> Option<String> {
    let after = hold.lapses.after.as_ref()?;
    if *now >= later(&released.at, after) {
        return Some(format!("it lapses after {after}"));
    }
    let ahead = now.duration_until(&released.at);
    (ahead > CLOCK_STEP).then(|| format!("it lapses after {after}, and the clock was set back"))
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
