use crate::procedure::VehicleValue;
use crate::table::{Fields, unit};

/// `[vehicle]`: what must be known of this vehicle, and where a person finds it.
pub(super) fn vehicle_value(fields: &mut Fields<'_, '_, '_>) -> Option<VehicleValue> {
    let what = fields.need_text("what", "least flow through the cooler");
    let find = fields.need_text("find", "service manual, cooler flow test");
    let has_unit = fields.item("unit").is_some();
    let unit = unit(fields, "unit");
    if has_unit && unit.is_none() {
        return None;
    }
    Some(VehicleValue { what: what?.value, find: find?.value, unit: unit.map(|unit| unit.value) })
}
