//! `[tools]`: an instrument has an accuracy.

use super::codes::{ACCURACY_WRONG, RANGE_WRONG};
use super::plausible::ends;
use crate::procedure::Name;
use crate::procedure::check::Proved;
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::link::all_fields;
use crate::quantity::{Num, Quantity, Unit};
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, optional_quantity, unit};

/// A tool; an instrument when it has an accuracy.
#[derive(Clone, Debug)]
pub struct Tool {
    /// What it is, in a mechanic's words.
    pub what: String,
    /// Plus or minus this much, in the unit of what it measures, or as a share of the reading (`4 %`).
    pub accuracy: Option<Quantity>,
    /// Whether it has a calibration that comes due: then its identity and that day are asked for.
    pub calibrated: bool,
    /// The least and the most that it can read.
    pub range: Option<(Quantity, Quantity)>,
    /// The unit on its scale: a bare number that is read with it is in this unit.
    pub unit: Option<Unit>,
}

impl Declarable for Tool {
    type Written = Self;
    const NONE_IS_SAID: bool = true;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<Self> {
        tool(fields)
    }

    fn checked(_name: &Name, written: &Self, _proved: &Proved<'_>) -> Option<Self> {
        Some(written.clone())
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { Tool { what, accuracy, calibrated, range, unit } }

fn tool(fields: &mut Fields<'_, '_, '_>) -> Option<Tool> {
    let what = fields.need_text("what", "measuring jug, 2 L");
    let accuracy = optional_quantity(fields, "accuracy").and_then(|accuracy| positive(fields, accuracy));
    let accuracy = accuracy.map(|accuracy| plus_or_minus(&accuracy));
    let calibrated = fields.mark("calibrated").is_some();
    let scale = unit(fields, "unit").map(|unit| unit.value);
    Some(Tool { what: what?.value, accuracy, calibrated, range: range(fields), unit: scale })
}

/// The least and the most that it can read.
fn range(fields: &mut Fields<'_, '_, '_>) -> Option<(Quantity, Quantity)> {
    let list = fields.texts("range")?;
    match ends(fields, &list.value)? {
        Ok((low, high)) => Some((low.value, high.value)),
        Err(problem) => {
            let headline = format!("{} has no range", fields.owner());
            let diagnostic = Diagnostic::error(&RANGE_WRONG, headline).at(list.span, problem);
            fields.scribe.note(
                diagnostic
                    .help("write the least and the most that it reads: `range = [\"20 N·m\", \"200 N·m\"]`"),
            );
            None
        }
    }
}

/// An accuracy of 1 °C is a difference, not a temperature.
fn plus_or_minus(accuracy: &Quantity) -> Quantity {
    Quantity { unit: accuracy.unit.as_difference(), number: accuracy.number }
}

/// Nothing, or less, would make each reading certain.
fn positive(fields: &mut Fields<'_, '_, '_>, accuracy: Spanned<Quantity>) -> Option<Quantity> {
    if accuracy.value.number > Num::ZERO {
        return Some(accuracy.value);
    }
    let headline = format!("{} has no accuracy that means anything", fields.owner());
    let diagnostic = Diagnostic::error(&ACCURACY_WRONG, headline).at(accuracy.span, "not more than zero");
    fields.scribe.note(
        diagnostic
            .help("write by how much it may be off, such as `1 psi`; leave it out if that is not known"),
    );
    None
}
