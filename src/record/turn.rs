//! One event, with the run before it and after it: what every part of the record is gathered from.

use super::model::{Late, Moment};
use crate::journal::write_time;
use crate::procedure::{Name, Step};
use crate::run::{Book, Event, LateEntry, Stamp, State, View, doers};

/// One event of a run, with both sides of it.
#[derive(Clone, Copy)]
pub(super) struct Turn<'run> {
    pub(super) book: &'run Book,
    /// What happened, whether it was entered in time or late.
    pub(super) event: &'run Event,
    /// That it was entered late, where it was.
    pub(super) late: Option<&'run LateEntry>,
    pub(super) stamp: &'run Stamp,
    pub(super) before: &'run State,
    pub(super) after: &'run State,
}

impl<'run> Turn<'run> {
    pub(super) fn moment(self) -> Moment {
        moment(self.stamp)
    }

    /// When it was really done and why it was entered late, where it was.
    pub(super) fn late(self) -> Option<Late> {
        self.late.map(|late| Late { done: write_time(&late.done), reason: late.reason.clone() })
    }

    /// The run just before the event, at the time of the event.
    pub(super) fn view_before(self) -> View<'run> {
        View { book: self.book, state: self.before, now: &self.stamp.at }
    }

    /// The run just after the event.
    pub(super) fn view(self) -> View<'run> {
        View { book: self.book, state: self.after, now: &self.stamp.at }
    }
}

pub(super) fn moment(stamp: &Stamp) -> Moment {
    Moment { entry: stamp.seq, at: write_time(&stamp.at) }
}

/// The step at which a reading is taken or a value is judged.
pub(super) fn step_of<'run>(book: &'run Book, name: &Name) -> Option<&'run Step> {
    book.procedure.step(book.step_of(name)?)
}

/// The number of that step; empty where there is none.
pub(super) fn number_of(book: &Book, name: &Name) -> String {
    step_of(book, name).map(|step| step.number.clone()).unwrap_or_default()
}

/// The people whose step it is: those of its roles, else the lead.
pub(super) fn performers(state: &State, step: Option<&Step>) -> Vec<String> {
    let roles = step.map_or_else(|| vec![Name("lead".to_owned())], doers);
    roles.iter().filter_map(|role| state.people.get(role).cloned()).collect()
}
