use crate::procedure::Tool;
use crate::quantity::Quantity;
use crate::table::{Fields, optional_quantity};

/// `[tools]`: an instrument has an accuracy.
pub(super) fn tool(fields: &mut Fields<'_, '_, '_>) -> Option<Tool> {
    let what = fields.need_text("what", "measuring jug, 2 L");
    let accuracy = optional_quantity(fields, "accuracy").map(|accuracy| plus_or_minus(&accuracy.value));
    Some(Tool { what: what?.value, accuracy })
}

/// An accuracy of 1 °C is a difference, not a temperature.
fn plus_or_minus(accuracy: &Quantity) -> Quantity {
    Quantity { unit: accuracy.unit.as_difference(), number: accuracy.number }
}
