//! From what happened to the state after it.

use crate::procedure::StepId;
use crate::run::apply::Next;
use crate::run::sitting::event::InterruptionEvent;
use crate::run::state::LapseOf;
use crate::run::work::deviation::Departure;
use crate::run::work::taken::Before;
use crate::run::work::tree::PassEnd;

impl Next<'_> {
    pub(in crate::run) fn interruption(&mut self, event: &InterruptionEvent) {
        let stamp = self.stamp.clone();
        match event {
            InterruptionEvent::Covered => self.state.interruption.covered = Some(stamp),
            InterruptionEvent::NotCovered { state } => {
                self.state.interruption.not_covered = Some(state.clone());
            }
            InterruptionEvent::OutOfScope { disposition, reason } => {
                self.state.interruption.covered = Some(stamp);
                self.depart(Departure::Scope, reason, Some(*disposition));
            }
            InterruptionEvent::Stated(statement) => {
                self.state.interruption.unmet.remove(statement);
                self.state.interruption.stated.insert(*statement, stamp);
            }
            InterruptionEvent::Unmet { statement, state } => {
                self.state.interruption.unmet.insert(*statement, state.clone());
            }
            InterruptionEvent::Declared { step, declared, reason } => {
                self.depart(Departure::Declared(*step, *declared), reason, None);
            }
            InterruptionEvent::DeferredToEnd { section, reason, .. } => {
                self.defer(Before::EndOf(*section), reason);
            }
            InterruptionEvent::Approved { step, .. } => self.approve(*step),
            InterruptionEvent::NotApproved { .. } => self.state.interruption.to_approve = None,
            InterruptionEvent::StillSo(step) => self.checked(*step),
            InterruptionEvent::NotSo { step, state } => self.not_so_any_more(*step, state),
            InterruptionEvent::Found { state } => {
                self.state.interruption.found = Some((state.clone(), stamp));
            }
            InterruptionEvent::Kept { hold } => {
                self.state.interruption.kept.insert(hold.clone(), stamp.seq);
            }
            InterruptionEvent::MakeSafe { hold } => {
                self.state.interruption.making_safe = Some(hold.clone());
            }
        }
    }

    fn approve(&mut self, step: StepId) {
        if let Some((_, reason)) = self.state.interruption.to_approve.take() {
            let seq = self.stamp.seq;
            self.said().left_out = Some((reason.clone(), seq));
            self.depart(Departure::NotApplicable(step), &reason, None);
        }
    }

    fn checked(&mut self, step: StepId) {
        self.state.interruption.recheck.retain(|other| *other != step);
    }

    /// The step is done anew, and the hold points after it, which vouch for it, are verified again.
    fn not_so_any_more(&mut self, step: StepId, state: &str) {
        self.checked(step);
        let number = self.book.procedure.step(step).map_or("", |step| &step.number);
        let why = format!("step {number} is not so any more: {state}");
        self.end(PassEnd::SetAside(why.clone()), None);
        self.lapse(LapseOf::After(step), why);
    }
}
