//! Hold points: which stand, which have lapsed, which protections are in force.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use jiff::{SignedDuration, ZonedDateTime};

use crate::procedure::{Hold, Name, StepId};
use crate::quantity::Quantity;
use crate::run::fastening::event::{Act, FasteningEvent};
use crate::run::stamp::Stamp;
use crate::run::state::LapseOf;
use crate::run::view::View;
use crate::run::work::facts::HoldWord;
use crate::run::work::part::Part;
use crate::run::work::taken::Origin;
use crate::run::work::tree::OccurrenceId;

/// How far a clock may step back without anybody having set it: more than any correction over a network.
const CLOCK_STEP: SignedDuration = SignedDuration::from_mins(1);

/// How far a hold point is verified at one occurrence.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Verification {
    /// Statements confirmed since it was last opened, by their place.
    pub confirmed: BTreeMap<usize, Stamp>,
    /// Statements found untrue since it was last opened, and how it is instead.
    pub contradicted: BTreeMap<usize, String>,
    /// The entry that opened it last; what was done before it does not count.
    pub since: u64,
    /// Its readings taken since it was last opened.
    pub read: BTreeSet<Name>,
    /// Whether its fasteners were worked at since it was last opened.
    pub worked: bool,
    /// Who has released it since it was last opened.
    pub signed: BTreeMap<Name, Stamp>,
    /// When it was first wholly released.
    pub first: Option<Stamp>,
    /// When it was last wholly released; stays when it lapses.
    pub released: Option<Stamp>,
    /// Why it must be verified again, since its last release.
    pub lapsed: Option<String>,
}

/// Something that bears on a verification.
enum Bears<'run> {
    Said(&'run HoldWord, &'run Stamp),
    Read(&'run Name, &'run Stamp),
    Worked(&'run Act),
    Lapses(Cow<'run, str>),
}

impl Bears<'_> {
    /// Which fastener was loosened again, and why.
    fn loosened(&self) -> Option<String> {
        let Self::Worked(Act { event: FasteningEvent::Loosened { position, reason, .. }, .. }) = self else {
            return None;
        };
        Some(format!("{} loosened again: {reason}", position.as_deref().unwrap_or("all")))
    }
}

impl Verification {
    /// Whether confirmations are being gathered, in contrast to a hold point that was wholly released.
    pub fn is_open(&self) -> bool {
        self.released.is_none() || self.lapsed.is_some()
    }

    /// Whether anything was said at it since it was opened.
    pub(in crate::run) fn is_begun(&self) -> bool {
        !(self.confirmed.is_empty()
            && self.contradicted.is_empty()
            && self.read.is_empty()
            && !self.worked
            && self.signed.is_empty())
    }

    /// Whether something was read or tightened since it was opened.
    pub(in crate::run) fn is_read(&self) -> bool {
        self.worked || !self.read.is_empty()
    }

    /// Starts over with this entry, because of `why`.
    fn reopen(&mut self, since: u64, why: &str) {
        let (first, released) = (self.first.take(), self.released.take());
        let lapsed = released.as_ref().map(|_| why.to_owned());
        *self = Self { since, first, released, lapsed, ..Self::default() };
    }

    /// One that is verified from the start, and of which nothing was done yet.
    pub(in crate::run) fn from_the_start() -> Self {
        Self { since: u64::MAX, ..Self::default() }
    }

    /// What was set anew to read it again may have moved what was confirmed, and is not what was released.
    fn read_at(&mut self, reading: &Name, hold: &Hold) {
        if !self.read.insert(reading.clone()) {
            self.confirmed.retain(|item, _| !hold.anew.contains(item));
            self.signed.clear();
        }
    }

    /// What is tightened, or loosened again, is not what was released.
    fn work_at(&mut self) {
        self.worked = true;
        self.signed.clear();
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
    pub(in crate::run) fn verify_at(
        self,
        name: &Name,
        at: OccurrenceId,
        mut over: impl FnMut(&Verification, u64, &str),
    ) -> Verification {
        let mut verification = Verification::default();
        let Some(hold) = self.book.procedure.hold(name) else { return verification };
        let mut bears = self.bearing((name, hold), at);
        bears.extend(self.ceilings_passed(name));
        bears.sort_by_key(|(seq, _)| *seq);
        for (seq, bears) in bears {
            let stamp = match &bears {
                Bears::Lapses(why) => {
                    over(&verification, seq, why);
                    verification.reopen(seq, why);
                    continue;
                }
                Bears::Said(_, stamp) | Bears::Read(_, stamp) => *stamp,
                Bears::Worked(act) => &act.stamp,
            };
            if !verification.is_open() {
                let released = verification.released.clone();
                let overdue = released.and_then(|released| overdue(hold, &released, &stamp.at));
                let why = overdue.or_else(|| bears.loosened());
                let why = why.as_deref().unwrap_or("it does not stand any more");
                over(&verification, seq, why);
                verification.reopen(seq, why);
            }
            match bears {
                Bears::Said(word, stamp) => verification.say(word, stamp, hold),
                Bears::Read(reading, _) => verification.read_at(reading, hold),
                Bears::Worked(_) => verification.work_at(),
                Bears::Lapses(_) => {}
            }
        }
        verification
    }

    /// What was said at a hold point, what was read at it, and what it lapsed with.
    fn bearing(self, (name, hold): (&Name, &'run Hold), at: OccurrenceId) -> Vec<(u64, Bears<'run>)> {
        let occurrence = self.state.tree.get(at);
        let said = occurrence.said.hold.iter();
        let mut bears: Vec<_> =
            said.map(|said| (said.stamp.seq, Bears::Said(&said.word, &said.stamp))).collect();
        for reading in &hold.readings {
            let taken = occurrence.said.reading(reading).map(|attempts| attempts.taken.as_slice());
            let measured = taken.unwrap_or_default().iter().filter(|taken| taken.origin == Origin::Measured);
            bears.extend(measured.map(|taken| (taken.stamp.seq, Bears::Read(reading, &taken.stamp))));
        }
        let worked = occurrence.said.acts.iter().filter(|act| hold.fasteners.contains(act.event.group()));
        let worked = worked.filter(|act| act.is_work() || act.is_loosened());
        bears.extend(worked.map(|act| (act.stamp.seq, Bears::Worked(act))));
        let began = occurrence.began.as_ref().map_or(0, |began| began.seq);
        let lapses = self.state.lapses.iter().rev().take_while(|lapse| lapse.seq >= began);
        let lapses = lapses.filter(|lapse| match &lapse.of {
            LapseOf::All => true,
            LapseOf::OnResume => hold.lapses.on_resume,
            LapseOf::WhenDisturbed => hold.lapses.when_disturbed,
            LapseOf::Touched(hold) => hold == name,
            LapseOf::OnPeople => hold.lapses.on_people,
            LapseOf::After(step) => matches!(occurrence.part, Part::Step(own) if own > *step),
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

    /// The verification of a hold point that is under way at one of its steps: none where it was wholly released and
    /// must be verified from the start.
    pub(in crate::run) fn open_verification(self, name: &Name, step: StepId) -> Option<Verification> {
        self.verification_of(name, step).filter(Verification::is_open)
    }

    /// How far a hold point is verified at the nearest occurrence of one of its steps.
    pub fn verification_of(self, name: &Name, step: StepId) -> Option<Verification> {
        Some(self.verification_at(name, self.find(Part::Step(step))?))
    }
}

/// A clock that stands before the release was set back, and says nothing of how much time has passed.
pub(in crate::run) fn overdue(hold: &Hold, released: &Stamp, now: &ZonedDateTime) -> Option<String> {
    let after = hold.lapses.after.as_ref()?;
    if *now >= later(&released.at, after) {
        return Some(format!("it lapses after {after}"));
    }
    let ahead = now.duration_until(&released.at);
    (ahead > CLOCK_STEP).then(|| format!("it lapses after {after}, and the clock was set back"))
}

/// The roles that must release a hold point, in order.
pub(in crate::run) fn releasers(hold: &Hold) -> impl Iterator<Item = &Name> + Clone {
    std::iter::once(&hold.release).chain(&hold.second)
}

/// A moment this much later; a time too long to count never comes.
pub(crate) fn later(from: &ZonedDateTime, by: &Quantity) -> ZonedDateTime {
    let seconds = by.base().to_f64();
    let duration = SignedDuration::try_from_secs_f64(seconds).unwrap_or(SignedDuration::MAX);
    from.checked_add(duration)
        .unwrap_or_else(|_| jiff::Timestamp::MAX.to_zoned_datetime(from.time_zone().clone()))
}
