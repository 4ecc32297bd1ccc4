//! Readings: every attempt, judged as things stood then, and again whenever its limits moved.

use std::collections::BTreeMap;

use super::wording::origin;
use crate::procedure::{self, Name};
use crate::record::amounts::{amount, answer};
use crate::record::judging::judged;
use crate::record::model::{Attempt, Instrument, Judged, Reading, Second, SetAside, UsedInstrument};
use crate::record::turn::{Turn, number_of, performers, step_of};
use crate::run::{Answered, Book, Event, PeopleEvent, SecondStanding};

#[derive(Default)]
pub(in crate::record) struct Readings(BTreeMap<Name, Taken>);

#[derive(Default)]
struct Taken {
    attempts: Vec<Attempt>,
    /// How many attempts there were at everything that the reading or its limits rest on, when it was last judged.
    rests_on: Vec<usize>,
}

impl Readings {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        match turn.event {
            Event::Read { reading, value } => self.take(turn, reading, value, None),
            Event::Corrected { reading, value, reason } => self.take(turn, reading, value, Some(reason)),
            Event::People(PeopleEvent::SecondRead { reading, value, person }) => {
                self.take_second(turn, reading, value, person);
            }
            Event::TakenAgain { readings, reason } => self.set_aside(turn, readings, reason),
            _ => {}
        }
        for (name, taken) in &mut self.0 {
            judge(turn, name, taken);
        }
    }

    fn take(&mut self, turn: Turn<'_>, name: &Name, value: &Answered, correction: Option<&String>) {
        let attempts = &mut self.0.entry(name.clone()).or_default().attempts;
        // A correction belongs where the attempt does that it corrects.
        let (pass, instrument) = if let Some(wrong) = attempts.last().filter(|_| correction.is_some()) {
            (wrong.pass.clone(), wrong.instrument.clone())
        } else {
            let step = step_of(turn.book, name);
            (step.and_then(|step| turn.view_before().pass_words(step.id)), used(turn))
        };
        attempts.push(Attempt {
            answer: answer(value),
            correction: correction.cloned(),
            pass,
            instrument,
            when: turn.moment(),
            late: turn.late(),
            who: performers(turn.after, step_of(turn.book, name)),
            second: None,
            judged: Vec::new(),
            set_aside: None,
        });
    }

    fn take_second(&mut self, turn: Turn<'_>, name: &Name, value: &Answered, person: &str) {
        let agreement = match turn.book.second_standing(turn.after, name) {
            SecondStanding::Differ => "the two readings differ",
            _ => "the two readings agree",
        };
        if let Some(attempt) = self.0.get_mut(name).and_then(|taken| taken.attempts.last_mut()) {
            attempt.second = Some(Second {
                answer: answer(value),
                who: person.to_owned(),
                agreement: agreement.to_owned(),
                when: turn.moment(),
            });
        }
    }

    fn set_aside(&mut self, turn: Turn<'_>, readings: &[Name], reason: &str) {
        for name in readings {
            let last = self.0.get_mut(name).and_then(|taken| taken.attempts.last_mut());
            if let Some(attempt) = last.filter(|attempt| attempt.set_aside.is_none()) {
                attempt.set_aside = Some(SetAside { reason: reason.to_owned(), when: turn.moment() });
            }
        }
    }

    pub(in crate::record) fn finish(mut self, book: &Book) -> Vec<Reading> {
        let mut readings: Vec<_> = book.procedure.readings().iter().collect();
        readings.sort_by_key(|(name, _)| step_of(book, name).map(|step| step.id));
        let mut attempts = |name: &Name| self.0.remove(name).unwrap_or_default().attempts;
        readings.into_iter().map(|(name, reading)| finished(book, name, reading, attempts(name))).collect()
    }
}

/// How many entries there are of everything that a result or its limits rest on.
pub(super) fn behind(turn: Turn<'_>, name: &Name) -> Vec<usize> {
    turn.book.moved_by(name).iter().map(|behind| turn.after.entries(behind)).collect()
}

/// The instrument of this entry, as it stood then.
pub(super) fn used(turn: Turn<'_>) -> Option<UsedInstrument> {
    let instrument = turn.after.taking.circumstances.get(&turn.stamp.seq)?.instrument.as_ref()?;
    Some(UsedInstrument {
        identity: instrument.identity.clone(),
        due: instrument.due.to_string(),
        overdue: instrument.accepted.map(|deviation| deviation + 1),
    })
}

fn judge(turn: Turn<'_>, name: &Name, taken: &mut Taken) {
    let rests_on = behind(turn, name);
    let (Some(attempt), true) = (taken.attempts.last_mut(), rests_on != taken.rests_on) else {
        return;
    };
    taken.rests_on = rests_on;
    let Some(now) = turn.book.judge(turn.after, name) else {
        return;
    };
    let now = judged(turn.book, name, &now, turn.moment());
    if attempt.judged.last().is_none_or(|before| differs(before, &now)) {
        attempt.judged.push(now);
    }
}

/// Whether two judgements say something else, whenever they were made.
fn differs(one: &Judged, other: &Judged) -> bool {
    let when = one.when.clone();
    *one != Judged { when, ..other.clone() }
}

fn finished(book: &Book, name: &Name, reading: &procedure::Reading, attempts: Vec<Attempt>) -> Reading {
    let tool = reading.instrument.as_ref().and_then(|tool| book.procedure.tools().get(tool));
    Reading {
        name: name.to_string(),
        what: reading.what.clone(),
        step: number_of(book, name),
        from: book.procedure.place(name).and_then(|place| origin(&book.procedure, place.source)),
        instrument: tool
            .map(|tool| Instrument { what: tool.what.clone(), accuracy: tool.accuracy.as_ref().map(amount) }),
        source: reading.source.clone(),
        attempts,
    }
}
