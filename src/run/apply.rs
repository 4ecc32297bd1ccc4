//! From an event to the state after it. Total: any event can be applied to any state. An event is put into the
//! occurrence it belongs to, and nothing else; what follows from it is worked out by [`crate::run::work::derived`].

use crate::procedure::{Name, StepId};
use crate::run::answered::{Answered, Disposition, Leave};
use crate::run::book::Book;
use crate::run::event::Event;
use crate::run::stamp::Stamp;
use crate::run::state::{LapseOf, LapsePoint, Left, Revision, Sitting, State};
use crate::run::work::derive::derive;
use crate::run::work::deviation::{Departure, Deviation};
use crate::run::work::facts::{Accepted, HoldSaid, HoldWord, Said};
use crate::run::work::kept::Kept;
use crate::run::work::taken::{Before, Deferral, Given, Origin, Taken};
use crate::run::work::times::{Jump, Jumped};
use crate::run::work::tree::{Occurrence, OccurrenceId};

/// The state after an event that was recorded at `stamp`.
#[must_use]
pub fn apply(book: &Book, mut state: State, event: &Event, stamp: &Stamp) -> State {
    // On its way to the next state it is neither this one nor that: nothing is looked up meanwhile.
    let kept = std::mem::take(&mut state.kept);
    put(book, &mut state, event, stamp);
    derive(book, &mut state);
    state.kept = kept.after(book, event, stamp, state.is_just_revised());
    state
}

/// The state after a row of events: what a run was when its last event had been recorded.
pub fn replay<'run>(book: &Book, events: impl IntoIterator<Item = (&'run Event, &'run Stamp)>) -> State {
    let mut state = State::default();
    for (event, stamp) in events {
        put(book, &mut state, event, stamp);
    }
    derive(book, &mut state);
    state.kept = Kept::nothing(book);
    state
}

/// Puts an event where it belongs.
fn put(book: &Book, state: &mut State, event: &Event, stamp: &Stamp) {
    let at = match &stamp.place {
        Some(place) => state.tree.enter(&book.procedure, place, stamp),
        None => OccurrenceId::RUN,
    };
    let mut next = Next { book, state, stamp, at };
    next.note_clock();
    next.take(event);
    if event.is_work() {
        next.state.last_work = Some((at, stamp.clone()));
    }
    next.state.last = Some(stamp.clone());
}

/// A state on its way to the next.
pub(super) struct Next<'run> {
    pub(super) book: &'run Book,
    pub(super) state: &'run mut State,
    pub(super) stamp: &'run Stamp,
    /// The occurrence that the event belongs to.
    pub(super) at: OccurrenceId,
}

impl Next<'_> {
    pub(super) fn take(&mut self, event: &Event) {
        match event {
            Event::Started(start) => self.state.start = Some(((**start).clone(), self.stamp.clone())),
            Event::PersonNamed { role, person } => self.state.people.name(role, person, self.stamp),
            Event::OdometerRead(entry) => self.state.odometer = Some(entry.clone()),
            Event::VehicleValueGiven { name, value, source } => {
                let given = Given { value: value.clone(), source: source.clone(), stamp: self.stamp.clone() };
                self.state.vehicle.insert(name.clone(), given);
            }
            Event::Acknowledged { hazard, .. } => {
                let (seq, at) = (self.stamp.seq, self.at);
                self.said().acknowledged.push((hazard.clone(), seq));
                self.state.acknowledged_at.entry(hazard.clone()).or_default().push((at, seq));
            }
            Event::Read { reading, value } => self.read(reading, value),
            Event::Corrected { reading, entry, value, reason } => {
                self.correct(reading, *entry, value, reason);
            }
            Event::TakenAgain { readings, reason } => self.take_again(readings, reason),
            Event::Noted(text) => self.state.notes.push((self.stamp.clone(), text.clone())),
            Event::Left { how, reason, state, first } => {
                let (reason, state, first) = (reason.clone(), state.clone(), first.clone());
                self.leave(Left { how: *how, reason, state, first, stamp: self.stamp.clone() });
            }
            Event::Resumed { look_again } => self.resume(look_again),
            Event::BriefAccepted => self.state.sitting = Sitting::Working,
            Event::Closed => self.state.closed = Some(self.stamp.clone()),
            Event::Disturbed { what, hold } => {
                let of = hold.clone().map_or(LapseOf::WhenDisturbed, LapseOf::Touched);
                self.lapse(of, format!("disturbed: {what}"));
            }
            Event::Confirmed { hold, item } => self.verify(hold, HoldWord::Confirmed(*item)),
            Event::Contradicted { hold, item, state } => {
                self.verify(hold, HoldWord::Contradicted(*item, state.clone()));
                self.state.interruption.making_safe = None;
            }
            Event::Released { hold, role } => self.verify(hold, HoldWord::Released(role.clone())),
            Event::Picked(step) => self.state.picked = Some(*step),
            Event::Done(_) => self.said().done = Some(self.stamp.clone()),
            Event::NotApplicable { step, reason } => {
                self.state.interruption.to_approve = Some((*step, reason.clone()));
            }
            Event::Deferred { before, reason, .. } => self.defer(Before::Step(*before), reason),
            Event::Flow(event) => self.flow(event),
            Event::People(event) => self.people(event),
            Event::Fastening(event) => self.fastening(event),
            Event::Particular(event) => self.particular(event),
            Event::Loose(event) => self.loose(event),
            Event::Late(late) => self.late_entry(late),
            Event::Interruption(event) => self.interruption(event),
            Event::Accepted { name, disposition, reason } => {
                let deviation = self.depart(Departure::Result(name.clone()), reason, Some(*disposition));
                let accepted = Accepted { stamp: self.stamp.clone(), deviation };
                self.said().accepted.push((name.clone(), accepted));
            }
            Event::LateAccepted { step, wait, disposition, reason } => {
                self.depart(Departure::Late(*step, wait.clone()), reason, Some(*disposition));
                let seq = self.stamp.seq;
                self.said().late.push((wait.clone(), seq));
            }
            Event::Disposed { deviation, disposition, reason } => {
                if let Some(deviation) = self.state.deviations.get_mut(*deviation) {
                    deviation.disposition = Some((*disposition, reason.clone()));
                }
            }
        }
    }

    /// The occurrence that the event belongs to.
    pub(super) fn occurrence(&mut self) -> &mut Occurrence {
        self.state.tree.get_mut(self.at)
    }

    /// What was said at it.
    pub(super) fn said(&mut self) -> &mut Said {
        &mut self.occurrence().said
    }

    fn read(&mut self, reading: &Name, value: &Answered) {
        let (stamp, at) = (self.stamp.clone(), self.at);
        let attempts = self.said().reading_mut(reading);
        let before = attempts.again.last().filter(|_| attempts.is_again()).map(|(_, reason)| reason.clone());
        let is_first = attempts.taken.is_empty();
        let place = stamp.seq;
        attempts.taken.push(Taken { value: value.clone(), origin: Origin::Measured, stamp, place });
        if is_first {
            self.state.read_at.entry(reading.clone()).or_default().push(at);
        } else {
            self.revise(&before.unwrap_or_else(|| "read again".to_owned()));
        }
        self.forget_what_rests_on(reading);
    }

    fn correct(&mut self, reading: &Name, entry: u64, value: &Answered, reason: &str) {
        let origin = Origin::Correction(reason.to_owned());
        let taken = Taken { value: value.clone(), origin, stamp: self.stamp.clone(), place: entry };
        self.said().reading_mut(reading).taken.push(taken);
        self.revise(reason);
    }

    /// What is known of passes that have ended is worked out anew where which of them count rests on what is read now.
    fn forget_what_rests_on(&mut self, reading: &Name) {
        let book = self.book;
        self.state.derived.forget(|repeat| book.counts_by(repeat).contains(reading));
    }

    /// What was entered before is not what it was: all that rests on it is worked out anew.
    pub(super) fn revise(&mut self, reason: &str) {
        self.state.revised = Some(Revision { seq: self.stamp.seq, reason: reason.to_owned() });
    }

    /// Each reading is taken again at its nearest occurrence.
    fn take_again(&mut self, readings: &[Name], reason: &str) {
        for reading in readings {
            let at = self.nearest(reading);
            let again = (self.stamp.clone(), reason.to_owned());
            self.state.tree.get_mut(at).said.reading_mut(reading).again.push(again);
        }
    }

    /// Where a reading was last entered as seen from here.
    fn nearest(&self, reading: &Name) -> OccurrenceId {
        let places = self.state.read_at.get(reading).map(Vec::as_slice).unwrap_or_default();
        places.iter().rev().find(|at| **at == self.at).or(places.last()).copied().unwrap_or(self.at)
    }

    fn verify(&mut self, hold: &Name, word: HoldWord) {
        let (stamp, at) = (self.stamp.clone(), self.at);
        let said = &mut self.said().hold;
        let is_first = said.is_empty();
        said.push(HoldSaid { word, stamp });
        let places = self.state.held_at.entry(hold.clone()).or_default();
        if !is_first {
            places.retain(|other| *other != at);
        }
        places.push(at);
    }

    pub(super) fn lapse(&mut self, of: LapseOf, why: String) {
        self.state.lapses.push(LapsePoint { seq: self.stamp.seq, of, why });
    }

    fn leave(&mut self, left: Left) {
        if left.how == Leave::Stop {
            self.lapse(LapseOf::All, format!("the job was stopped: {}", left.reason));
        }
        self.state.sitting = Sitting::Resting;
        self.state.interruption.making_safe = None;
        self.state.interruption.found = None;
        self.state.left = Some(left);
    }

    fn resume(&mut self, look_again: &[StepId]) {
        self.note_absence();
        if self.state.sitting == Sitting::Working {
            self.state.left = None;
        }
        self.state.sitting = Sitting::Briefing;
        self.state.picked = None;
        self.state.particulars.resumed = Some(self.stamp.clone());
        self.lapse(LapseOf::OnResume, "the run was taken up again".to_owned());
        self.state.interruption.recheck = look_again.to_vec();
    }

    pub(super) fn defer(&mut self, before: Before, reason: &str) {
        let deferral = Deferral { before, reason: reason.to_owned(), stamp: self.stamp.clone() };
        self.said().put_off = Some(deferral);
    }

    pub(super) fn depart(
        &mut self,
        departure: Departure,
        reason: &str,
        disposition: Option<Disposition>,
    ) -> usize {
        self.state.deviations.push(Deviation {
            departure,
            at: self.at,
            reason: reason.to_owned(),
            stamp: self.stamp.clone(),
            disposition: disposition.map(|disposition| (disposition, reason.to_owned())),
        });
        self.state.deviations.len() - 1
    }

    /// Notes where the time of this entry lies before that of the one before, or has another offset.
    pub(in crate::run) fn note_clock(&mut self) {
        let Some(last) = &self.state.last else {
            return;
        };
        let at = &self.stamp.at;
        let back = at.duration_until(&last.at);
        let back = back.is_positive().then_some(Jumped::Back(back));
        let shown = |time: &jiff::ZonedDateTime| time.strftime("%:z").to_string();
        let is_other = last.at.offset() != at.offset();
        let other = is_other.then(|| Jumped::Offset { from: shown(&last.at), to: shown(at) });
        let stamp = self.stamp.clone();
        let jumps = back.into_iter().chain(other).map(|how| Jump { stamp: stamp.clone(), how });
        self.state.times.jumps.extend(jumps);
    }
}
