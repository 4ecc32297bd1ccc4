//! Things that are only named: choices of ways, stopping points, steps.

use crate::procedure::check::Proved;
use crate::procedure::declarable::Declarable;
use crate::procedure::{Alternatives, CheckedProcedure, Name, NamedStep, StoppingPoint};
use crate::table::Fields;

/// `[alternatives]`.
impl Declarable for Alternatives {
    type Written = String;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<String> {
        only_what(fields)
    }

    fn checked(_name: &Name, written: &String, _proved: &Proved<'_>) -> Option<Self> {
        Some(Self { what: written.clone() })
    }

    fn words<'p>(&'p self, _procedure: &'p CheckedProcedure) -> Option<&'p str> {
        Some(&self.what)
    }
}

/// `[stopping_points]`.
impl Declarable for StoppingPoint {
    type Written = String;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<String> {
        only_what(fields)
    }

    fn checked(_name: &Name, written: &String, _proved: &Proved<'_>) -> Option<Self> {
        Some(Self { what: written.clone() })
    }

    fn words<'p>(&'p self, _procedure: &'p CheckedProcedure) -> Option<&'p str> {
        Some(&self.what)
    }
}

/// `[steps]`.
impl Declarable for NamedStep {
    type Written = String;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<String> {
        only_what(fields)
    }

    fn checked(_name: &Name, written: &String, _proved: &Proved<'_>) -> Option<Self> {
        Some(Self { what: written.clone(), shown: String::new() })
    }

    fn words<'p>(&'p self, _procedure: &'p CheckedProcedure) -> Option<&'p str> {
        Some(&self.shown)
    }
}

/// Something that is only named.
fn only_what(fields: &mut Fields<'_, '_, '_>) -> Option<String> {
    fields.need_text("what", "the vehicle stands on its wheels").map(|what| what.value)
}
