//! `second` and `agree`: a reading that a second person takes as well.

use super::codes::SECOND_UNCLEAR;
use super::reading::{WrittenKind, WrittenSecond};
use crate::quantity::{Num, Quantity, Unit};
use crate::source::{Diagnostic, Span, Spanned};
use crate::table::{Fields, optional_quantity};

/// `second` and `agree`: two quantities never come out quite the same, everything else does.
pub(super) fn second(fields: &mut Fields<'_, '_, '_>, kind: Option<&WrittenKind>) -> Option<WrittenSecond> {
    let by = fields.text("second");
    let agree_key = fields.item("agree").map(|item| item.key);
    let agree = optional_quantity(fields, "agree");
    match (&by, kind, agree_key) {
        (None, _, Some(key)) => {
            unclear(
                fields,
                key,
                "without `second`",
                "name the role that reads it again: `second = \"helper\"`",
            );
        }
        (Some(by), Some(WrittenKind::Quantity { unit, .. }), None) => {
            let help = format!("add a line such as `agree = \"2 {}\"`", unit.value.symbol());
            unclear(fields, by.span, "how far apart may the two be?", &help);
        }
        (Some(_), Some(WrittenKind::Quantity { unit, .. }), Some(_)) => {
            let agree = by_how_much(fields, agree.as_ref()?, &unit.value)?;
            return Some(WrittenSecond { by: by?, agree: Some(agree) });
        }
        (Some(_), Some(_), Some(key)) => {
            unclear(fields, key, "this sort of reading is the same or it is not", "take `agree` out");
        }
        _ => {}
    }
    Some(WrittenSecond { by: by?, agree: None })
}

/// A difference of what is read, zero or more.
fn by_how_much(fields: &mut Fields<'_, '_, '_>, agree: &Spanned<Quantity>, unit: &Unit) -> Option<Quantity> {
    let difference = Quantity { unit: agree.value.unit.as_difference(), number: agree.value.number };
    if difference.number >= Num::ZERO && difference.in_unit(&unit.as_difference()).is_ok() {
        return Some(difference);
    }
    let help = format!("write a difference of the reading, such as `agree = \"2 {}\"`", unit.symbol());
    unclear(fields, agree.span, "not a difference of what is read", &help);
    None
}

fn unclear(fields: &mut Fields<'_, '_, '_>, place: Span, label: &str, help: &str) {
    let headline = format!("{} does not say clearly when two readings agree", fields.owner());
    fields.scribe.note(Diagnostic::error(&SECOND_UNCLEAR, headline).at(place, label).help(help));
}
