//! Readings at each occurrence: every attempt, with its corrections and its judgement as it stands.

use super::steps::late;
use super::wording::origin;
use super::work::{Work, moment};
use crate::procedure::{self, Name};
use crate::record::amounts::{amount, answer};
use crate::record::judging::{fails, judged};
use crate::record::model::{
    self, Answer, Attempt, Correction, Instrument, Outcome, Reading, Second, SetAside, UsedInstrument,
};
use crate::run::{self, Attempts, Judgement, Origin, SecondTaken, StepAt, Taken, View};

/// What stands in place of a reading that somebody else still has to read without having seen it.
pub(super) const BLIND: &str = "read, and not shown before the second reading is there";

pub(in crate::record) fn readings(work: &Work<'_>, outcome: &mut Outcome) -> Vec<Reading> {
    let procedure = &work.book().procedure;
    let mut readings: Vec<_> = procedure.readings().iter().collect();
    readings.sort_by_key(|(name, _)| procedure.home(name));
    let mut told = Vec::new();
    for (name, reading) in readings {
        told.extend(work.of_name(name).iter().map(|seen| one(work, (name, reading), seen, outcome)));
    }
    told
}

fn one(
    work: &Work<'_>,
    (name, reading): (&Name, &procedure::Reading),
    seen: &StepAt<'_>,
    outcome: &mut Outcome,
) -> Reading {
    let procedure = &work.book().procedure;
    let tool = reading.instrument.as_ref().and_then(|tool| procedure.tools().get(tool));
    let entered = seen.at.and_then(|at| work.view.state.tree.get(at).said.reading(name));
    Reading {
        name: name.to_string(),
        what: reading.what.clone(),
        step: seen.step.number.clone(),
        place: work.place(seen),
        from: procedure.place(name).and_then(|place| origin(procedure, place.source)),
        instrument: tool
            .map(|tool| Instrument { what: tool.what.clone(), accuracy: tool.accuracy.as_ref().map(amount) }),
        source: reading.source.clone(),
        attempts: entered
            .map(|entered| Entered { work, seen, name, attempts: entered }.told(outcome))
            .unwrap_or_default(),
    }
}

/// What was entered for a reading at one occurrence.
struct Entered<'work, 'run> {
    work: &'work Work<'run>,
    seen: &'work StepAt<'run>,
    name: &'work Name,
    attempts: &'run Attempts,
}

impl Entered<'_, '_> {
    fn told(&self, outcome: &mut Outcome) -> Vec<Attempt> {
        let mut places: Vec<u64> = self.attempts.taken.iter().map(|taken| taken.place).collect();
        places.sort_unstable();
        places.dedup();
        let judged: Vec<_> = places.iter().map(|place| self.judged(*place)).collect();
        let passes =
            judged.last().is_some_and(|last| last.as_ref().is_some_and(|last| last.judgement.lets_go_on()));
        judged.iter().flatten().for_each(|judged| count(&judged.judgement, passes, outcome));
        let next = places.iter().skip(1).map(|place| Some(*place)).chain([None]);
        let attempts = places.iter().zip(next).zip(judged);
        attempts.filter_map(|((place, next), judged)| self.attempt(*place, next, judged)).collect()
    }

    fn here(&self) -> View<'_> {
        self.work.inside(self.seen)
    }

    fn judged(&self, place: u64) -> Option<run::Judged> {
        self.here().judge_attempt(self.name, self.attempts.at(place)?)
    }

    fn attempt(&self, place: u64, next: Option<u64>, now: Option<run::Judged>) -> Option<Attempt> {
        let (work, newest) = (self.work, self.attempts.at(place)?);
        let is_blind = next.is_none() && self.here().is_blind(self.name);
        let said =
            |value: &run::Answered| if is_blind { Answer::Text(BLIND.to_owned()) } else { answer(value) };
        let corrected = self.corrections(place, said);
        let seconds = self.attempts.seconds.iter().filter(|second| second.of == place);
        let again = self.attempts.again.iter();
        let mut again =
            again.filter(|(stamp, _)| stamp.seq > place && next.is_none_or(|next| stamp.seq < next));
        Some(Attempt {
            answer: said(&newest.value),
            corrected,
            instrument: self.here().instrument_of(self.name, place).map(used),
            when: work.moment(place),
            late: late(work, place),
            who: work.people(Some(self.seen.step), place),
            second: seconds.map(|second| self.second(newest, second)).collect(),
            judged: now.filter(|_| !is_blind).map(|now| judged(work.book(), self.name, &now)),
            deviation: self.deviation(place, next),
            set_aside: again
                .next()
                .map(|(stamp, reason)| SetAside { reason: reason.clone(), when: moment(stamp) }),
        })
    }

    fn corrections(&self, place: u64, said: impl Fn(&run::Answered) -> Answer) -> Vec<Correction> {
        let taken: Vec<&Taken> = self.attempts.taken.iter().filter(|taken| taken.place == place).collect();
        let pairs = taken.windows(2).filter_map(|pair| match pair {
            [before, after] => Some((*before, *after)),
            _ => None,
        });
        let corrected = pairs.filter_map(|(before, after)| {
            let Origin::Correction(reason) = &after.origin else { return None };
            Some(Correction {
                before: said(&before.value),
                reason: reason.clone(),
                when: moment(&after.stamp),
            })
        });
        corrected.collect()
    }

    fn second(&self, first: &Taken, second: &SecondTaken) -> Second {
        let agrees = self.here().second_agrees(self.name, first, second);
        let agreement = match (agrees, self.attempts.difference) {
            (true, _) => "the two readings agree",
            (false, Some(accepted)) if accepted > second.stamp.seq => "the two readings differ, gone on with",
            (false, _) => "the two readings differ",
        };
        Second {
            answer: answer(&second.value),
            who: self.work.view.state.people.known_as(&second.person, second.stamp.seq).to_owned(),
            agreement: agreement.to_owned(),
            when: moment(&second.stamp),
        }
    }

    /// The deviation under which an attempt was gone on with.
    fn deviation(&self, place: u64, next: Option<u64>) -> Option<usize> {
        accepted(self.work, self.seen, self.name, |entry| {
            entry > place && next.is_none_or(|next| entry < next)
        })
    }
}

/// The deviation, from 1, under which a result was gone on with at such an entry.
pub(super) fn accepted(
    work: &Work<'_>,
    seen: &StepAt<'_>,
    name: &Name,
    is_meant: impl Fn(u64) -> bool,
) -> Option<usize> {
    let accepted = &work.view.state.tree.get(seen.at?).said.accepted;
    let mut accepted = accepted.iter().rev().filter(|(of, _)| of == name);
    accepted.find(|(_, accepted)| is_meant(accepted.stamp.seq)).map(|(_, accepted)| accepted.deviation + 1)
}

fn count(judgement: &Judgement, passes_now: bool, outcome: &mut Outcome) {
    match judgement {
        Judgement::Beyond(_) => outcome.ceilings_exceeded += 1,
        Judgement::Found(own) if fails(own) => outcome.as_found_outside += 1,
        _ if fails(judgement) => {
            outcome.readings_failed += 1;
            outcome.taken_again += usize::from(passes_now);
        }
        _ => {}
    }
}

/// An instrument as it stood when it was used.
pub(super) fn used(instrument: &run::Instrument) -> UsedInstrument {
    model::UsedInstrument {
        identity: instrument.identity.clone(),
        due: instrument.due.to_string(),
        overdue: instrument.accepted.map(|deviation| deviation + 1),
    }
}
