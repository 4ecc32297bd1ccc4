//! Clocks that run: waits between steps, and the rows of a log.

use jiff::ZonedDateTime;

use crate::procedure::{Name, Step};
use crate::run::holds::verification::later;
use crate::run::prompt::Ask;
use crate::run::stamp::Stamp;
use crate::run::view::View;
use crate::run::work::facts::Said;

/// A wait whose clock runs.
#[derive(Clone, Debug, PartialEq)]
pub struct RunningWait {
    /// Its name: of a wait, or of a repeat that makes a pass every so often.
    pub name: Name,
    /// What is waited for.
    pub what: String,
    /// When its clock was started.
    pub began: ZonedDateTime,
    /// When the shortest time is over.
    pub until: Option<ZonedDateTime>,
    /// When the longest time is over.
    pub latest: Option<ZonedDateTime>,
}

/// How a wait stands at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WaitStands {
    /// The shortest time is not over.
    Runs,
    /// The shortest time is over, or there is none; the longest is not.
    Due,
    /// The longest time is over.
    Overdue,
}

impl RunningWait {
    /// How it stands at a moment.
    pub fn stands(&self, now: &ZonedDateTime) -> WaitStands {
        if self.latest.as_ref().is_some_and(|latest| now > latest) {
            return WaitStands::Overdue;
        }
        if self.until.as_ref().is_some_and(|until| now < until) { WaitStands::Runs } else { WaitStands::Due }
    }

    /// The word for how it stands.
    pub fn word(&self, now: &ZonedDateTime) -> &'static str {
        match self.stands(now) {
            WaitStands::Runs => "runs",
            WaitStands::Due => "due",
            WaitStands::Overdue => "overdue",
        }
    }

    /// The next moment at which it stands otherwise, if there is one.
    pub fn turns(&self, now: &ZonedDateTime) -> Option<&ZonedDateTime> {
        self.until.iter().chain(&self.latest).find(|moment| now <= *moment)
    }
}

impl View<'_> {
    pub(in crate::run) fn ask_wait(self, step: &Step) -> Option<Ask> {
        if self.is_begun(step) {
            return None;
        }
        step.needs.iter().find_map(|name| self.ask_time(step, name))
    }

    fn ask_time(self, step: &Step, name: &Name) -> Option<Ask> {
        let running = self.running_wait(name)?;
        if let Some(until) = running.until.filter(|until| self.now < until) {
            return Some(Ask::Wait { wait: name.clone(), until });
        }
        let since = running.latest?;
        let accepted = Said::last(&self.said(step.id).late, name).is_some();
        (*self.now > since && !accepted).then(|| Ask::Late { wait: name.clone(), since })
    }

    /// When the clock of a wait was started; `None` where the step that starts it is not complete. Of a repeat that
    /// makes a pass every so often: when the last pass ended.
    pub fn wait_began(self, wait: &Name) -> Option<ZonedDateTime> {
        if self.book.procedure.started_at(wait).is_some() {
            return self.wait_started(wait).map(|stamp| stamp.at);
        }
        let last = *self.round(wait)?.ended.last()?;
        self.state.tree.get(last).end.as_ref().map(|ending| ending.stamp.at.clone())
    }

    fn wait_started(self, wait: &Name) -> Option<Stamp> {
        self.completed(self.book.procedure.step(self.book.procedure.started_at(wait)?)?)
    }

    /// What the longest time of a wait counts from: where its step was entered late, when it was really done.
    fn wait_stated(self, wait: &Name) -> Option<ZonedDateTime> {
        let stamp = self.wait_started(wait)?;
        let stated = self.state.times.stated.get(&stamp.seq);
        Some(stated.map_or(stamp.at, |stated| stated.done.clone()))
    }

    /// The waits whose clock runs for a step that is still to do, and the logs whose next row will be due.
    pub fn running_waits(self) -> Vec<RunningWait> {
        let needed = |name: &Name| {
            let steps = self.book.procedure.steps().iter();
            steps.filter(|step| !self.is_settled(step)).any(|step| step.needs.contains(name))
        };
        let waits = self.book.procedure.waits().names().filter(|name| needed(name));
        let waits = waits.filter_map(|name| self.running_wait(name));
        waits.chain(self.book.procedure.repeats().names().filter_map(|name| self.row_to_come(name))).collect()
    }

    fn running_wait(self, name: &Name) -> Option<RunningWait> {
        let wait = self.book.procedure.wait(name)?;
        let began = self.wait_began(name)?;
        let stated = self.wait_stated(name)?;
        Some(RunningWait {
            name: name.clone(),
            what: wait.what.clone(),
            until: wait.at_least.as_ref().map(|least| later(&began, least)),
            latest: wait.at_most.as_ref().map(|most| later(&stated, most)),
            began,
        })
    }
}
