//! `[waits]`: at least, at most, or both.

use std::cmp::Ordering;

use super::codes::{LIMITS_REVERSED, WAIT_WITHOUT_TIME};
use crate::procedure::Name;
use crate::procedure::check::Proved;
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::link::all_fields;
use crate::quantity::Quantity;
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, duration};

/// A time that must pass, or must not be exceeded, between two steps: the first step that names the wait starts
/// it when it is done, each later step that names it needs it.
#[derive(Clone, Debug)]
pub struct Wait {
    /// What is waited for.
    pub what: String,
    /// The shortest time.
    pub at_least: Option<Quantity>,
    /// The longest time.
    pub at_most: Option<Quantity>,
}

impl Declarable for Wait {
    type Written = Self;
    const UNMENTIONED: &'static str = "never started";

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<Self> {
        wait(fields)
    }

    fn checked(_name: &Name, written: &Self, _proved: &Proved<'_>) -> Option<Self> {
        Some(written.clone())
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { Wait { what, at_least, at_most } }

fn wait(fields: &mut Fields<'_, '_, '_>) -> Option<Wait> {
    let what = fields.need_text("what", "the paint dries");
    let says_a_time = fields.item("at_least").is_some() || fields.item("at_most").is_some();
    let at_least = duration(fields, "at_least");
    let at_most = duration(fields, "at_most");
    if !says_a_time {
        let headline = format!("{} has no time", fields.owner());
        let diagnostic = Diagnostic::error(&WAIT_WITHOUT_TIME, headline).at(fields.place(), "how long?");
        fields.scribe.note(diagnostic.help("add `at_least = \"30 min\"`, `at_most = \"2 h\"`, or both"));
    }
    if let Some(most) = at_most.as_ref().filter(|most| most.value.number.is_zero()) {
        let headline = format!("{} can never be over in time", fields.owner());
        let diagnostic = Diagnostic::error(&LIMITS_REVERSED, headline).at(most.span, "no time at all");
        fields.scribe.note(diagnostic.help("write the longest time that is still good: `at_most = \"2 h\"`"));
    }
    if let (Some(least), Some(most)) = (&at_least, &at_most) {
        reversed(fields, least, most);
    }
    Some(Wait {
        what: what?.value,
        at_least: at_least.map(|time| time.value),
        at_most: at_most.map(|time| time.value),
    })
}

fn reversed(fields: &mut Fields<'_, '_, '_>, least: &Spanned<Quantity>, most: &Spanned<Quantity>) {
    if matches!(least.value.compare(&most.value), Ok(Ordering::Greater)) {
        let headline = format!("{} can never be over in time", fields.owner());
        let diagnostic = Diagnostic::error(&LIMITS_REVERSED, headline).at(most.span, "at most this");
        fields.scribe.note(diagnostic.also(least.span, "but at least this").help("exchange the two times"));
    }
}
