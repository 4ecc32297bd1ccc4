//! Hold points at each occurrence of their step: every verification, also those that were broken off.

use std::collections::BTreeMap;

use super::readings::BLIND;
use super::work::{Work, moment};
use crate::procedure::{self, Name};
use crate::record::amounts::{answer, said};
use crate::record::model::{Ended, Hold, HoldReading, Release, Statement, Untrue, Verification};
use crate::run::{Attempts, HoldWord, Origin, StepAt, Taken, Told};

/// When each hold point was wholly released, by entry, in order.
type Releases<'run> = BTreeMap<&'run Name, Vec<u64>>;

pub(in crate::record) fn holds(work: &Work<'_>) -> Vec<Hold> {
    let procedure = &work.book().procedure;
    let mut told = Vec::new();
    let mut releases = Releases::new();
    for (name, hold) in procedure.holds().iter() {
        let steps = procedure.held_at(name).iter().flat_map(|step| work.of(*step));
        for seen in steps {
            let verifications = seen.at.map(|at| work.view.verifications_at(name, at)).unwrap_or_default();
            let whole = verifications.iter().filter(|told| !told.verification.is_open());
            let whole = whole.filter_map(|told| told.verification.released.as_ref());
            releases.entry(name).or_default().extend(whole.map(|stamp| stamp.seq));
            told.push((name, hold, seen, verifications));
        }
    }
    for entries in releases.values_mut() {
        entries.sort_unstable();
    }
    told.into_iter()
        .map(|(name, hold, seen, verifications)| {
            Held { work, name, hold, seen }.told(&verifications, &releases)
        })
        .collect()
}

/// A hold point at one occurrence of its step.
struct Held<'work, 'run> {
    work: &'work Work<'run>,
    name: &'work Name,
    hold: &'work procedure::Hold,
    seen: &'work StepAt<'run>,
}

impl Held<'_, '_> {
    fn told(&self, verifications: &[Told], releases: &Releases<'_>) -> Hold {
        let mut all: Vec<Verification> = Vec::new();
        let mut from = 0;
        for told in verifications {
            let until = told.over.as_ref().map_or(u64::MAX, |(until, _)| *until);
            let again_because =
                all.last().and_then(|last| last.ended.as_ref()).map(|ended| ended.why.clone());
            let ended = self.ended(told, releases);
            all.push(Verification { again_because, ended, ..self.said(from..until) });
            from = until;
        }
        Hold {
            name: self.name.to_string(),
            what: self.hold.what.clone(),
            step: self.seen.step.number.clone(),
            place: self.work.place(self.seen),
            protection: self.hold.protection.clone(),
            verifications: all,
        }
    }

    /// What was said and read in these entries.
    fn said(&self, entries: std::ops::Range<u64>) -> Verification {
        let mut verification = Verification::default();
        let Some(at) = self.seen.at else { return verification };
        let occurrence = self.work.view.state.tree.get(at);
        for said in occurrence.said.hold.iter().filter(|said| entries.contains(&said.stamp.seq)) {
            let when = moment(&said.stamp);
            match &said.word {
                HoldWord::Confirmed(item) => {
                    verification.confirmed.push(Statement { statement: self.statement(*item), when });
                }
                HoldWord::Contradicted(item, instead) => {
                    let (statement, instead) = (self.statement(*item), instead.clone());
                    verification.untrue.push(Untrue { statement, instead, when });
                }
                HoldWord::Released(role) => verification.released.push(Release {
                    role: role.to_string(),
                    name: self.work.view.state.people.at(role, said.stamp.seq).unwrap_or_default().to_owned(),
                    when,
                }),
            }
        }
        for reading in &self.hold.readings {
            let Some(attempts) = occurrence.said.reading(reading) else { continue };
            let made = attempts.taken.iter().filter(|taken| taken.origin == Origin::Measured);
            let made = made.filter(|taken| entries.contains(&taken.place));
            // What was entered wrongly stands as it was corrected, as among the readings.
            verification.readings.extend(made.filter_map(|made| {
                Some(HoldReading {
                    what: self.work.book().procedure.called(reading).to_owned(),
                    answer: self.shown(reading, attempts.at(made.place)?, attempts),
                    when: moment(&made.stamp),
                })
            }));
        }
        verification.readings.sort_by_key(|reading| reading.when.entry);
        verification
    }

    /// An attempt as it stands; the last one not before somebody else has read it unseen.
    fn shown(&self, reading: &Name, taken: &Taken, attempts: &Attempts) -> String {
        let is_last = attempts.latest().is_some_and(|last| last.place == taken.place);
        if is_last && self.work.inside(self.seen).is_blind(reading) {
            return BLIND.to_owned();
        }
        said(&answer(&taken.value))
    }

    fn statement(&self, item: usize) -> String {
        self.hold.confirm.get(item).cloned().unwrap_or_default()
    }

    /// Why a verification came to its end: another hold point ended what it put in force, or it lapsed.
    fn ended(&self, told: &Told, releases: &Releases<'_>) -> Option<Ended> {
        let begun = told.verification.released.as_ref().filter(|_| !told.verification.is_open());
        let until = told.over.as_ref().map_or(u64::MAX, |(until, _)| *until);
        let ender = begun.and_then(|begun| self.ender(begun.seq, until, releases));
        if let Some((entry, ender)) = ender {
            let what = self.work.book().procedure.called(ender);
            let why = format!("the hold point \"{what}\" ended it");
            return Some(Ended { why, when: self.work.moment(entry) });
        }
        let (entry, why) = told.over.as_ref()?;
        Some(Ended { why: why.clone(), when: self.work.moment(*entry) })
    }

    /// The first hold point that ended what this one put in force, between these entries.
    fn ender<'run>(&self, begun: u64, until: u64, releases: &Releases<'run>) -> Option<(u64, &'run Name)> {
        let enders = self.work.book().procedure.enders(self.name).iter();
        let first = enders.filter_map(|ender| {
            let (ender, entries) = releases.get_key_value(ender)?;
            let next = entries.get(entries.partition_point(|entry| *entry <= begun))?;
            (*next <= until).then_some((*next, *ender))
        });
        first.min_by_key(|(entry, _)| *entry)
    }
}
