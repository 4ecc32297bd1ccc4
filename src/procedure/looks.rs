//! What somebody else has to do with a step than to do it: be called, read again, verify, sign off.

use super::{Check, CheckedProcedure, Name, Reading, Step, Witness};

/// What the person of a role has to do with somebody else's step.
#[derive(Clone, Copy, Debug)]
pub enum Look<'p> {
    /// Verify it afterwards.
    Verify(&'p Check),
    /// Be called to see it.
    See(&'p Witness),
    /// Read again what was read, without having seen the first reading.
    ReadAgain(&'p Reading),
    /// Look at it and sign it off.
    SignOff,
}

impl Look<'_> {
    /// What is done, said of the person who does it.
    pub const fn why(self) -> &'static str {
        match self {
            Self::Verify(_) => "checks it afterwards",
            Self::See(_) => "is called to see it",
            Self::ReadAgain(_) => "reads it again, blind to the first",
            Self::SignOff => "looks at it and signs it off",
        }
    }
}

impl CheckedProcedure {
    /// Who else has to do with a step, and what.
    pub fn looks(&self, step: &Step) -> Vec<(&Name, Look<'_>)> {
        let checks = step.checks.iter().filter_map(|name| self.check(name));
        let checks = checks.map(|check| (&check.by, Look::Verify(check)));
        let witnesses = step.witnesses.iter().filter_map(|name| self.witness(name));
        let witnesses = witnesses.map(|witness| (&witness.by, Look::See(witness)));
        let hold = step.hold.as_ref().and_then(|hold| self.hold(hold));
        let of_hold = hold.map(|hold| hold.readings.as_slice()).unwrap_or_default();
        let readings = step.takes.iter().chain(of_hold).filter_map(|name| self.reading(name));
        let again =
            readings.filter_map(|reading| Some((&reading.second.as_ref()?.by, Look::ReadAgain(reading))));
        let sign_off = self.signs_off(step).map(|role| (role, Look::SignOff));
        checks.chain(witnesses).chain(again).chain(sign_off).collect()
    }

    /// The role that signs off a step which another role does alone. A hold point is released instead.
    pub fn signs_off(&self, step: &Step) -> Option<&Name> {
        match step.who.as_slice() {
            [only] if step.hold.is_none() => self.role(only)?.checked_by.as_ref(),
            _ => None,
        }
    }
}
