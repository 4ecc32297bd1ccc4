//! Hold points: every verification, also those that were broken off.

use std::collections::BTreeMap;

use crate::procedure::{self, Name};
use crate::record::amounts::{answer, said};
use crate::record::model::{Ended, Hold, HoldReading, Release, Statement, Untrue, Verification};
use crate::record::turn::Turn;
use crate::run::{self, Answered, Book, Event, FlowEvent, PeopleEvent};

#[derive(Default)]
pub(in crate::record) struct Holds(BTreeMap<Name, Vec<Verification>>);

impl Holds {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        self.verify(turn);
        for (name, verifications) in &mut self.0 {
            if let Some(open) = verifications.last_mut().filter(|last| last.ended.is_none()) {
                open.ended = ended(turn, name, open);
            }
        }
    }

    fn verify(&mut self, turn: Turn<'_>) {
        match turn.event {
            Event::Confirmed { hold, item } => {
                let statement = statement(turn, hold, *item);
                let when = turn.moment();
                self.open(turn, hold).confirmed.push(Statement { statement, when });
            }
            Event::Contradicted { hold, item, state } => {
                let (statement, instead) = (statement(turn, hold, *item), state.clone());
                let when = turn.moment();
                self.open(turn, hold).untrue.push(Untrue { statement, instead, when });
            }
            Event::Read { reading, value } => self.read(turn, reading, value),
            Event::Released { hold, role } => {
                let release = Release {
                    role: role.to_string(),
                    name: turn.after.people.get(role).cloned().unwrap_or_default(),
                    when: turn.moment(),
                };
                self.open(turn, hold).released.push(release);
            }
            _ => {}
        }
    }

    fn read(&mut self, turn: Turn<'_>, reading: &Name, value: &Answered) {
        let holds = turn.book.procedure.holds().iter();
        for (name, _) in holds.filter(|(_, hold)| hold.readings.contains(reading)) {
            let what = turn.book.procedure.called(reading).to_owned();
            let read = HoldReading { what, answer: said(&answer(value)), when: turn.moment() };
            self.open(turn, name).readings.push(read);
        }
    }

    /// The verification under way; a new one where the last was released or broken off.
    fn open(&mut self, turn: Turn<'_>, name: &Name) -> &mut Verification {
        let released = turn.before.holds.get(name).is_some_and(|before| !before.is_open());
        let why = turn.view_before().lapse(name);
        let moment = turn.moment();
        let verifications = self.0.entry(name.clone()).or_default();
        if let Some(last) = verifications.last_mut().filter(|last| last.ended.is_none() && released) {
            let why = why.clone().unwrap_or_else(|| "verified again".to_owned());
            last.ended = Some(Ended { why, when: moment });
        }
        if verifications.last().is_none_or(|last| last.ended.is_some()) {
            let again_because = verifications.last().and_then(|last| last.ended.as_ref());
            let again_because = again_because.map(|ended| ended.why.clone());
            let step = turn.book.step_of_hold(name);
            let pass = step.and_then(|step| turn.view_before().pass_words(step.id));
            verifications.push(Verification { again_because, pass, ..Verification::default() });
        }
        let last = verifications.len() - 1;
        &mut verifications[last]
    }

    pub(in crate::record) fn finish(mut self, book: &Book) -> Vec<Hold> {
        let holds = book.procedure.holds().iter();
        holds
            .map(|(name, hold)| finished(book, name, hold, self.0.remove(name).unwrap_or_default()))
            .collect()
    }
}

/// What this event did to a verification that was under way or stood: ended, lapsed, or broke it off.
fn ended(turn: Turn<'_>, name: &Name, open: &Verification) -> Option<Ended> {
    let state = turn.after.holds.get(name)?;
    let broken_off =
        || (state.is_open() && is_bare(state) && is_begun(open)).then(|| broken_off(turn, state));
    let why = ended_by(turn, name).or_else(broken_off)?;
    Some(Ended { why, when: turn.moment() })
}

/// The hold point that has just ended the protection of this one.
fn ended_by(turn: Turn<'_>, name: &Name) -> Option<String> {
    let was = turn.view_before().is_ended(name);
    let Event::Released { hold, .. } = turn.event else {
        return None;
    };
    let ended = turn.view().is_ended(name) && !was;
    let what = turn.book.procedure.hold(hold).map_or(hold.as_str(), |hold| hold.what.as_str());
    ended.then(|| format!("the hold point \"{what}\" ended it"))
}

/// What made everything that was verified so far count no more.
fn broken_off(turn: Turn<'_>, state: &run::Verification) -> String {
    match turn.event {
        Event::Disturbed(what) => format!("disturbed: {what}"),
        Event::People(PeopleEvent::TakenOver { role, person, .. }) => PeopleEvent::change(role, person),
        Event::Left { reason, .. } => format!("the job was stopped: {reason}"),
        Event::Resumed => "the run was taken up again".to_owned(),
        Event::Flow(FlowEvent::PassEnded { .. } | FlowEvent::GivenUp { .. }) => "the pass ended".to_owned(),
        Event::Flow(FlowEvent::Restarted { reason, .. }) => format!("begun anew: {reason}"),
        _ => state.lapsed.clone().unwrap_or_else(|| "to be verified anew".to_owned()),
    }
}

fn is_bare(state: &run::Verification) -> bool {
    state.confirmed.is_empty()
        && state.contradicted.is_empty()
        && state.read.is_empty()
        && state.signed.is_empty()
}

fn is_begun(open: &Verification) -> bool {
    !(open.confirmed.is_empty()
        && open.untrue.is_empty()
        && open.readings.is_empty()
        && open.released.is_empty())
}

fn statement(turn: Turn<'_>, hold: &Name, item: usize) -> String {
    let hold = turn.book.procedure.hold(hold);
    hold.and_then(|hold| hold.confirm.get(item)).cloned().unwrap_or_default()
}

fn finished(book: &Book, name: &Name, hold: &procedure::Hold, verifications: Vec<Verification>) -> Hold {
    Hold {
        name: name.to_string(),
        what: hold.what.clone(),
        step: book.step_of_hold(name).map(|step| step.number.clone()).unwrap_or_default(),
        protection: hold.protection.clone(),
        verifications,
    }
}
