//! Things that are only named: choices of ways, stopping points, steps.

use crate::procedure::check::Proved;
use crate::procedure::declarable::Declarable;
use crate::procedure::link::all_fields;
use crate::procedure::{CheckedProcedure, Name};
use crate::table::Fields;

/// Ways of which exactly one is gone: the parts of the step that names it.
#[derive(Clone, Debug)]
pub struct Alternatives {
    /// What they are ways to do.
    pub what: String,
}

/// `[alternatives]`.
impl Declarable for Alternatives {
    type Written = String;
    const IN_FRONT: bool = true;

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

all_fields! { Alternatives { what } }

/// A state of things in which the job can rest.
#[derive(Clone, Debug)]
pub struct StoppingPoint {
    /// The state.
    pub what: String,
}

/// `[stopping_points]`.
impl Declarable for StoppingPoint {
    type Written = String;
    const IN_FRONT: bool = true;

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

all_fields! { StoppingPoint { what } }

/// A step that texts speak of.
#[derive(Clone, Debug)]
pub struct NamedStep {
    /// What is done there.
    pub what: String,
    /// What a mention of it shows: `step 4.2 (fill the first part)`.
    pub shown: String,
}

/// `[steps]`.
impl Declarable for NamedStep {
    type Written = String;
    const IN_FRONT: bool = true;

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

all_fields! { NamedStep { what, shown } }

/// Something that is only named.
fn only_what(fields: &mut Fields<'_, '_, '_>) -> Option<String> {
    fields.need_text("what", "the vehicle stands on its wheels").map(|what| what.value)
}
