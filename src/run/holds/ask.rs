//! What is still to be asked at a hold point.

use crate::procedure::{Name, StepId};
use crate::run::holds::verification::{Verification, releasers};
use crate::run::prompt::Ask;
use crate::run::view::View;
use crate::run::work::part::Part;

impl View<'_> {
    /// What is still to be asked before a hold point stands at one of its steps. `None` when it does.
    pub(in crate::run) fn ask_hold(self, name: &Name, step: StepId) -> Option<Ask> {
        let hold = self.book.procedure.hold(name)?;
        let at = self.find(Part::Step(step));
        let mut verification = at.map(|at| self.verification_at(name, at)).unwrap_or_default();
        if !verification.is_open() {
            verification = Verification::from_the_start();
        }
        let item = (0..hold.confirm.len()).find(|item| !verification.confirmed.contains_key(item));
        item.map(|item| Ask::Confirm { hold: name.clone(), item })
            .or_else(|| {
                let here = at.map_or(self, |at| self.inside(at));
                hold.readings.iter().find_map(|reading| here.ask_hold_reading(&verification, reading))
            })
            .or_else(|| {
                let here = at.map_or(self, |at| self.inside(at));
                hold.fasteners.iter().find_map(|group| here.ask_held_group(group, verification.since))
            })
            .or_else(|| {
                let role = releasers(hold).find(|role| !verification.signed.contains_key(*role))?;
                Some(Ask::Release { hold: name.clone(), role: role.clone() })
            })
    }

    fn ask_hold_reading(self, verification: &Verification, reading: &Name) -> Option<Ask> {
        if !verification.read.contains(reading) || !self.is_taken(reading) {
            return self.ask_instrument_of(reading).or_else(|| Some(Ask::Reading(reading.clone())));
        }
        if let Some(ask) = self.ask_second(reading) {
            return Some(ask);
        }
        let failed = || (!self.result_stands(reading)).then(|| Ask::Failed(reading.clone()));
        self.ask_opinion(reading).or_else(failed)
    }
}
