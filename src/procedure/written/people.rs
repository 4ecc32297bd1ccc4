//! `[roles]`: who does what.

use crate::procedure::check::Proved;
use crate::procedure::declarable::{Called, Declarable, Spoken};
use crate::procedure::link::all_fields;
use crate::procedure::{Name, Table};
use crate::source::Spanned;
use crate::table::Fields;

/// A role, the role that checks it not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenRole {
    /// What this person does.
    pub what: String,
    /// The role that checks and signs off.
    pub checked_by: Option<Spanned<String>>,
}

/// Somebody's part in the job.
#[derive(Clone, Debug)]
pub struct Role {
    /// What this person does.
    pub what: String,
    /// The role whose person checks and signs off what this one does alone.
    pub checked_by: Option<Name>,
}

impl Declarable for Role {
    type Written = WrittenRole;
    const IN_FRONT: bool = true;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenRole> {
        let what = fields.need_text("what", "does the work, reads the gauges");
        let checked_by = fields.text("checked_by");
        Some(WrittenRole { what: what?.value, checked_by })
    }

    fn spoken(written: &WrittenRole) -> Vec<Spoken<'_>> {
        let checked_by = written.checked_by.iter();
        checked_by.map(|name| Spoken::of(name, &[Table::Roles], "who checks a role's work")).collect()
    }

    fn checked(_name: &Name, written: &WrittenRole, _proved: &Proved<'_>) -> Option<Self> {
        let checked_by = written.checked_by.as_ref().map(|name| Name::from(&name.value));
        Some(Self { what: written.what.clone(), checked_by })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { Role { what, checked_by } }
