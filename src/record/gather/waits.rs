//! Waits, from each start of the clock to the step that needed it.

use jiff::ZonedDateTime;

use crate::journal::write_time;
use crate::procedure::{self, Name, StepId};
use crate::quantity::Quantity;
use crate::record::model::{LateStart, Wait, WaitStart};
use crate::record::turn::Turn;
use crate::run::{Book, Event, FlowEvent, later};

#[derive(Default)]
pub(in crate::record) struct Waits(std::collections::BTreeMap<Name, Vec<WaitStart>>);

impl Waits {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        if let Event::LateAccepted { step, wait, reason, .. } = turn.event {
            self.late(turn, *step, wait, reason);
        }
        if let Event::Flow(FlowEvent::Missed { wait, .. }) = turn.event
            && let Some(start) = self.last(wait)
        {
            start.missed = Some(turn.moment());
        }
        for step in turn.book.procedure.steps().iter().filter(|step| is_new(turn, step.id)) {
            for wait in &step.needs {
                self.used(turn, wait);
            }
            for wait in &step.starts {
                self.started(turn, wait);
            }
        }
    }

    fn started(&mut self, turn: Turn<'_>, name: &Name) {
        let Some(wait) = turn.book.procedure.wait(name) else {
            return;
        };
        let stated = turn.late.map_or(&turn.stamp.at, |late| &late.done);
        let at = |from: &ZonedDateTime, after: &Quantity| write_time(&later(from, after));
        self.0.entry(name.clone()).or_default().push(WaitStart {
            began: turn.moment(),
            stated: turn.late.map(|late| write_time(&late.done)),
            not_before: wait.at_least.as_ref().map(|least| at(&turn.stamp.at, least)),
            due: wait.at_most.as_ref().map(|most| at(stated, most)),
            used: None,
            late: Vec::new(),
            missed: None,
        });
    }

    fn used(&mut self, turn: Turn<'_>, name: &Name) {
        if let Some(start) = self.last(name) {
            start.used.get_or_insert_with(|| turn.moment());
        }
    }

    fn late(&mut self, turn: Turn<'_>, step: StepId, wait: &Name, reason: &str) {
        let number = turn.book.procedure.step(step).map(|step| step.number.clone()).unwrap_or_default();
        if let Some(start) = self.last(wait) {
            start.late.push(LateStart { step: number, reason: reason.to_owned(), when: turn.moment() });
        }
    }

    fn last(&mut self, name: &Name) -> Option<&mut WaitStart> {
        self.0.get_mut(name)?.last_mut()
    }

    pub(in crate::record) fn finish(mut self, book: &Book) -> Vec<Wait> {
        let waits = book.procedure.waits().iter();
        waits.map(|(name, wait)| waited(name, wait, self.0.remove(name).unwrap_or_default())).collect()
    }
}

/// Whether a step became complete with this event.
fn is_new(turn: Turn<'_>, step: StepId) -> bool {
    turn.after.completed.contains_key(&step) && !turn.before.completed.contains_key(&step)
}

fn waited(name: &Name, wait: &procedure::Wait, starts: Vec<WaitStart>) -> Wait {
    Wait {
        name: name.to_string(),
        what: wait.what.clone(),
        at_least: wait.at_least.as_ref().map(ToString::to_string),
        at_most: wait.at_most.as_ref().map(ToString::to_string),
        starts,
    }
}
