//! From an event to the state after it. Total: any event can be applied to any state.

use super::book::Book;
use super::event::{Answered, Disposition, Event, Leave, Stamp};
use super::holds::releasers;
use super::repeats::Scope;
use super::state::{
    Acceptance, Before, Deferral, Departure, Deviation, Given, Left, Origin, Sitting, State, Taken,
};
use super::taken_out::correction;
use super::view::View;
use crate::procedure::{Name, SectionId, StepId};

/// The state after an event that was recorded at `stamp`.
#[must_use]
pub fn apply(book: &Book, state: State, event: &Event, stamp: &Stamp) -> State {
    let mut next = Next { book, state, stamp };
    next.note_clock();
    let undecided = correction(event).map(|reason| (reason, next.view().undecided()));
    next.take(event);
    next.settle();
    if let Some((reason, undecided)) = undecided {
        next.note_taken_out(undecided, reason);
    }
    next.state.last = Some(stamp.clone());
    next.state
}

/// The state after a row of events: what a run was when its last event had been recorded.
pub fn replay<'run>(book: &Book, events: impl IntoIterator<Item = (&'run Event, &'run Stamp)>) -> State {
    events.into_iter().fold(State::default(), |state, (event, stamp)| apply(book, state, event, stamp))
}

/// A state on its way to the next.
pub(super) struct Next<'run> {
    pub(super) book: &'run Book,
    pub(super) state: State,
    pub(super) stamp: &'run Stamp,
}

impl Next<'_> {
    /// The run as it stands so far.
    pub(super) fn view(&self) -> View<'_> {
        View { book: self.book, state: &self.state, now: &self.stamp.at }
    }

    pub(super) fn take(&mut self, event: &Event) {
        match event {
            Event::Started(start) => self.state.start = Some((start.clone(), self.stamp.clone())),
            Event::PersonNamed { role, person } => {
                self.state.name_person(role, person, self.stamp);
            }
            Event::OdometerRead(entry) => self.state.odometer = Some(entry.clone()),
            Event::VehicleValueGiven { name, value, source } => {
                let given = Given { value: value.clone(), source: source.clone(), stamp: self.stamp.clone() };
                self.state.vehicle.insert(name.clone(), given);
            }
            Event::Acknowledged { step, hazard } => {
                self.state.acknowledged.insert((*step, hazard.clone()), self.stamp.seq);
            }
            Event::Read { reading, value } => self.read(reading, value, Origin::Measured),
            Event::Corrected { reading, value, reason } => {
                self.read(reading, value, Origin::Correction(reason.clone()));
                self.look_back(reading, reason);
            }
            Event::TakenAgain { readings, .. } => self.state.again.extend(readings.iter().cloned()),
            Event::Noted(text) => self.state.notes.push((self.stamp.clone(), text.clone())),
            Event::Left { how, reason, state, first } => {
                let (reason, state, first) = (reason.clone(), state.clone(), first.clone());
                self.leave(Left { how: *how, reason, state, first, stamp: self.stamp.clone() });
            }
            Event::Resumed => self.resume(),
            Event::BriefAccepted => self.state.sitting = Sitting::Working,
            Event::Closed => self.state.closed = Some(self.stamp.clone()),
            Event::Disturbed(what) => self.disturb(what),
            Event::Confirmed { .. } | Event::Contradicted { .. } | Event::Released { .. } => {
                self.verify(event);
            }
            Event::Picked(step) => self.state.picked = Some(*step),
            Event::Done(step) => {
                self.state.done.insert(*step, self.stamp.seq);
            }
            Event::NotApplicable { step, reason } => {
                self.state.interruption.to_approve = Some((*step, reason.clone()));
            }
            Event::Deferred { step, before, reason } => self.defer(*step, *before, reason),
            Event::Flow(event) => self.flow(event),
            Event::People(event) => self.people(event),
            Event::Fastening(event) => self.fastening(event),
            Event::Taking(event) => self.taking(event),
            Event::Interruption(event) => self.interruption(event),
            Event::Accepted { .. } | Event::LateAccepted { .. } | Event::Disposed { .. } => {
                self.deviate(event);
            }
        }
    }

    pub(super) fn read(&mut self, reading: &Name, value: &Answered, origin: Origin) {
        let holds = self.book.procedure.holds().iter().filter(|(_, hold)| hold.readings.contains(reading));
        for (name, _) in holds {
            if origin == Origin::Measured {
                self.open_hold(name).read.insert(reading.clone());
            }
        }
        if origin == Origin::Measured {
            self.state.again.remove(reading);
        }
        let place = match origin {
            Origin::Measured => self.stamp.seq,
            // Also where that lies before what counts now: nobody has read anything.
            Origin::Correction(_) => {
                self.state.newest(reading, |_| true).map_or(self.stamp.seq, |taken| taken.place)
            }
        };
        let taken = Taken { value: value.clone(), origin, stamp: self.stamp.clone(), place };
        self.state.readings.entry(reading.clone()).or_default().push(taken);
        self.note_circumstances(reading);
    }

    fn verify(&mut self, event: &Event) {
        match event {
            Event::Confirmed { hold, item } => {
                let stamp = self.stamp.clone();
                let verification = self.open_hold(hold);
                verification.contradicted.remove(item);
                verification.confirmed.insert(*item, stamp);
            }
            Event::Contradicted { hold, item, state } => {
                self.open_hold(hold).contradicted.insert(*item, state.clone());
                self.state.interruption.making_safe = None;
            }
            Event::Released { hold, role } => self.release(hold, role),
            _ => {}
        }
    }

    fn release(&mut self, hold: &Name, role: &Name) {
        let stamp = self.stamp.clone();
        let roles: Vec<Name> =
            self.book.procedure.hold(hold).map(|hold| releasers(hold).cloned().collect()).unwrap_or_default();
        let verification = self.open_hold(hold);
        verification.signed.insert(role.clone(), stamp.clone());
        if roles.iter().all(|role| verification.signed.contains_key(role)) {
            verification.released = Some(stamp);
            verification.lapsed = None;
        }
    }

    /// The verification of a hold point that is under way. One that was wholly released starts over, and one whose
    /// time is over has lapsed.
    fn open_hold(&mut self, hold: &Name) -> &mut super::state::Verification {
        let why = self.view().lapse(hold);
        let verification = self.state.holds.entry(hold.clone()).or_default();
        if !verification.is_open() {
            verification.reopen(why.as_deref().unwrap_or("verified again"));
        }
        verification
    }

    pub(super) fn lapse(&mut self, why: &str, lapses: impl Fn(&crate::procedure::Lapses) -> LapsesNow) {
        for (name, hold) in self.book.procedure.holds().iter() {
            let Some(verification) = self.state.holds.get_mut(name) else {
                continue;
            };
            if lapses(&hold.lapses) == LapsesNow::Yes {
                verification.reopen(why);
            }
        }
    }

    fn disturb(&mut self, what: &str) {
        let why = format!("disturbed: {what}");
        self.lapse(&why, |lapses| LapsesNow::from(lapses.when_disturbed));
    }

    fn leave(&mut self, left: Left) {
        if left.how == Leave::Stop {
            self.lapse(&format!("the job was stopped: {}", left.reason), |_| LapsesNow::Yes);
        }
        self.state.sitting = Sitting::Resting;
        self.state.interruption.making_safe = None;
        self.state.interruption.found = None;
        self.state.left = Some(left);
    }

    fn resume(&mut self) {
        self.note_absence();
        if self.state.sitting == Sitting::Working {
            self.state.left = None;
        }
        self.state.sitting = Sitting::Briefing;
        self.state.acknowledged.clear();
        self.state.picked = None;
        self.state.taking.resumed = self.stamp.seq;
        self.lapse("the run was taken up again", |lapses| LapsesNow::from(lapses.on_resume));
        self.ask_names_anew();
        self.list_rechecks();
    }

    fn defer(&mut self, step: StepId, before: StepId, reason: &str) {
        let before = Before::Step(before);
        let deferral = Deferral { before, reason: reason.to_owned(), stamp: self.stamp.clone() };
        self.state.deferred.insert(step, deferral);
    }

    fn deviate(&mut self, event: &Event) {
        match event {
            Event::Accepted { name, disposition, reason } => {
                let deviation = self.depart(Departure::Result(name.clone()), reason, Some(*disposition));
                let rests_on = self.book.moved_by(name).into_iter().map(|behind| {
                    let entries = self.state.entries(&behind);
                    (behind, entries)
                });
                let acceptance = Acceptance { deviation, rests_on: rests_on.collect() };
                self.state.accepted.insert(name.clone(), acceptance);
            }
            Event::LateAccepted { step, wait, disposition, reason } => {
                self.depart(Departure::Late(*step, wait.clone()), reason, Some(*disposition));
                self.state.late.insert((*step, wait.clone()), self.stamp.seq);
            }
            Event::Disposed { deviation, disposition, reason } => {
                if let Some(deviation) = self.state.deviations.get_mut(*deviation) {
                    deviation.disposition = Some((*disposition, reason.clone()));
                }
            }
            _ => {}
        }
    }

    pub(super) fn depart(
        &mut self,
        departure: Departure,
        reason: &str,
        disposition: Option<Disposition>,
    ) -> usize {
        self.state.deviations.push(Deviation {
            departure,
            reason: reason.to_owned(),
            stamp: self.stamp.clone(),
            disposition: disposition.map(|disposition| (disposition, reason.to_owned())),
        });
        self.state.deviations.len() - 1
    }

    /// Works out which passes there are, and notes which steps have become complete, and which are not any more. A
    /// reopened step shows its hazards anew.
    fn settle(&mut self) {
        self.book.refresh(&mut self.state);
        self.refresh_fasteners();
        self.note_work();
        for step in self.book.procedure.steps() {
            let view = self.view();
            let complete = !view.is_not_applicable(step) && view.is_complete(step);
            let was = self.state.completed.get(&step.id).map(|stamp| stamp.seq);
            match was {
                None if complete => {
                    self.state.completed.insert(step.id, self.stamp.clone());
                    self.state.finished.insert(step.id, self.stamp.seq);
                    self.state.reopened.remove(&step.id);
                    self.state.deferred.remove(&step.id);
                }
                Some(seq) if !complete => {
                    let same_pass = self.state.counts(step.id, seq) || self.is_begun_anew(step.id);
                    self.reopen(step.id, same_pass);
                }
                _ => {}
            }
        }
        self.uncall_sections();
        self.watch();
    }

    /// A step that is to be done in a new pass was not reopened: it begins there.
    fn reopen(&mut self, step: StepId, same_pass: bool) {
        self.state.completed.remove(&step);
        self.state.acknowledged.retain(|(acknowledged, _), _| *acknowledged != step);
        if same_pass {
            self.state.reopened.insert(step);
        } else {
            self.state.reopened.remove(&step);
        }
    }

    /// Whether it is this entry that makes a step be done anew, by itself and not with its section.
    fn is_begun_anew(&self, step: StepId) -> bool {
        let moved = self.state.moved.last().filter(|moved| moved.stamp.seq == self.stamp.seq);
        moved.is_some_and(|moved| matches!(moved.scope, Scope::Step(_)) && self.book.is_in(moved.scope, step))
    }

    /// A section in which something is open again is not complete, whatever was said.
    fn uncall_sections(&mut self) {
        let called: Vec<SectionId> =
            self.state.sections.keys().chain(self.state.performed.keys()).copied().collect();
        for section in called {
            let view = self.view();
            let begun = view.section_begins(section);
            if !view.is_section_settled(section) {
                self.state.sections.remove(&section);
            }
            self.state.sections.retain(|called, stamp| *called != section || stamp.seq > begun);
            self.state.performed.retain(|called, stamp| *called != section || stamp.seq > begun);
        }
    }
}

/// Whether a hold point lapses now.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum LapsesNow {
    Yes,
    No,
}

impl From<bool> for LapsesNow {
    fn from(lapses: bool) -> Self {
        if lapses { Self::Yes } else { Self::No }
    }
}
