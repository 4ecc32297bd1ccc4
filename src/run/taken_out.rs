//! What fails does not go away by a correction of something else: it becomes a deviation.

use super::apply::Next;
use super::event::Event;
use super::state::Departure;
use super::taking::TakingEvent;
use super::view::View;
use crate::procedure::{Name, Step};

/// A result that fails, and about which nobody has decided.
pub(super) struct Undecided {
    name: Name,
    /// Where the attempts stand that it rests on.
    places: Vec<u64>,
}

/// Why something that was entered is corrected, where that can move what applies and how often it is done.
pub(super) fn correction(event: &Event) -> Option<&str> {
    match event {
        Event::Corrected { reason, .. }
        | Event::Taking(TakingEvent::VehicleValueCorrected { reason, .. }) => Some(reason),
        _ => None,
    }
}

impl View<'_> {
    /// The results that fail as things stand, and about which nobody has decided.
    pub(super) fn undecided(self) -> Vec<Undecided> {
        let steps = self.book.procedure.steps().iter().filter(|step| !self.is_settled(step));
        let failing = steps.flat_map(|step| self.results_of(step)).filter(|name| self.has_failed(name));
        failing.map(|name| Undecided { name: name.clone(), places: self.places(name) }).collect()
    }

    fn results_of<'a>(self, step: &'a Step) -> impl Iterator<Item = &'a Name>
    where
        Self: 'a,
    {
        let hold = step.hold.as_ref().and_then(|hold| self.book.procedure.hold(hold));
        let of_hold = hold.map(|hold| hold.readings.as_slice()).unwrap_or_default();
        step.takes.iter().chain(&step.computes).chain(of_hold)
    }

    fn places(self, name: &Name) -> Vec<u64> {
        let behind = self.book.behind(name).into_iter();
        behind.filter_map(|reading| Some(self.state.latest(&reading)?.place)).collect()
    }

    fn is_asked(self, undecided: &Undecided) -> bool {
        let step = self.book.step_of(&undecided.name).and_then(|step| self.book.procedure.step(step));
        step.is_some_and(|step| !self.is_not_applicable(step))
            && self.places(&undecided.name) == undecided.places
    }
}

impl Next<'_> {
    /// What failed before a correction and is not asked about any more after it.
    pub(super) fn note_taken_out(&mut self, undecided: Vec<Undecided>, reason: &str) {
        for failing in undecided {
            if !self.view().is_asked(&failing) {
                let reason = format!("a correction took it out of the way: {reason}");
                self.depart(Departure::Result(failing.name), &reason, None);
            }
        }
    }
}
