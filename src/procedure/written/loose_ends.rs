//! `[loose_ends]`: what the step that names one leaves to be done.

use crate::procedure::check::Proved;
use crate::procedure::declarable::{Called, Declarable, Spoken};
use crate::procedure::link::all_fields;
use crate::procedure::{Name, Table};
use crate::source::Spanned;
use crate::table::Fields;

/// A loose end whose condition is not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenLooseEnd {
    /// What is left to be done.
    pub what: String,
    /// The condition under which it is left.
    pub only: Option<Spanned<String>>,
}

/// What the step that names it leaves to be done: a bolt to renew, a part to order.
#[derive(Clone, Debug)]
pub struct LooseEnd {
    /// What is left to be done.
    pub what: String,
    /// The condition under which it is left; none where it always is.
    pub only: Option<Name>,
}

impl Declarable for LooseEnd {
    type Written = WrittenLooseEnd;
    const IN_FRONT: bool = true;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenLooseEnd> {
        let what = fields.need_text("what", "fit a new bolt");
        let only = fields.text("if");
        Some(WrittenLooseEnd { what: what?.value, only })
    }

    fn spoken(written: &WrittenLooseEnd) -> Vec<Spoken<'_>> {
        let condition = |name| Spoken::of(name, &[Table::Conditions], "when it is left");
        written.only.iter().map(condition).collect()
    }

    fn checked(_name: &Name, written: &WrittenLooseEnd, _proved: &Proved<'_>) -> Option<Self> {
        let only = written.only.as_ref().map(|name| Name::from(&name.value));
        Some(Self { what: written.what.clone(), only })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { LooseEnd { what, only } }
