//! `[checks]`: independent verification; `[witnesses]`.

use crate::procedure::check::Proved;
use crate::procedure::declarable::{Called, Declarable, Spoken};
use crate::procedure::link::all_fields;
use crate::procedure::{Name, Table};
use crate::quantity::Quantity;
use crate::source::Spanned;
use crate::table::{Fields, duration};

/// A check by another person, its role not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenCheck {
    /// What is seen or measured.
    pub what: String,
    /// The role that checks.
    pub by: Spanned<String>,
    /// The break after which the same person may look again, where that is allowed.
    pub alone: Option<Quantity>,
}

/// A check by another person than those who did the step.
#[derive(Clone, Debug)]
pub struct Check {
    /// What is seen or measured.
    pub what: String,
    /// The role that checks.
    pub by: Name,
    /// The break after which the same person may look again, where that is allowed.
    pub alone: Option<Quantity>,
}

impl Declarable for Check {
    type Written = WrittenCheck;
    const IN_FRONT: bool = true;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCheck> {
        let what = fields.need_text("what", "the pins stand in the holes marked 2");
        let by = fields.need_text("by", "helper");
        let alone = duration(fields, "alone");
        Some(WrittenCheck { what: what?.value, by: by?, alone: alone.map(|time| time.value) })
    }

    fn spoken(written: &WrittenCheck) -> Vec<Spoken<'_>> {
        vec![Spoken::of(&written.by, &[Table::Roles], "who checks")]
    }

    fn checked(_name: &Name, written: &WrittenCheck, _proved: &Proved<'_>) -> Option<Self> {
        let by = Name::from(&written.by.value);
        Some(Self { what: written.what.clone(), by, alone: written.alone.clone() })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { Check { what, by, alone } }

/// A witness point, its role not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenWitness {
    /// What is to be seen.
    pub what: String,
    /// The role that is called to see it.
    pub by: Spanned<String>,
}

/// A witness point: somebody is called to see it; the job may go on without.
#[derive(Clone, Debug)]
pub struct Witness {
    /// What is to be seen.
    pub what: String,
    /// The role that is called.
    pub by: Name,
}

impl Declarable for Witness {
    type Written = WrittenWitness;
    const IN_FRONT: bool = true;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenWitness> {
        let what = fields.need_text("what", "the seal before it goes in");
        let by = fields.need_text("by", "helper");
        Some(WrittenWitness { what: what?.value, by: by? })
    }

    fn spoken(written: &WrittenWitness) -> Vec<Spoken<'_>> {
        vec![Spoken::of(&written.by, &[Table::Roles], "who is called to see it")]
    }

    fn checked(_name: &Name, written: &WrittenWitness, _proved: &Proved<'_>) -> Option<Self> {
        Some(Self { what: written.what.clone(), by: Name::from(&written.by.value) })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { Witness { what, by } }
