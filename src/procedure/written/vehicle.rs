//! `[vehicle]`: what must be known of this vehicle, and where a person finds it.

use super::choices::several;
use super::codes::KIND_UNCLEAR;
use crate::formula::Type;
use crate::procedure::Name;
use crate::procedure::check::{Proved, Valued};
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::link::all_fields;
use crate::quantity::Unit;
use crate::source::Diagnostic;
use crate::table::{Fields, unit};

/// Something that must be known of this vehicle.
#[derive(Clone, Debug)]
pub struct VehicleValue {
    /// What it is.
    pub what: String,
    /// Where a person finds it.
    pub find: String,
    /// The unit of a quantity; none where the value is a word or two.
    pub unit: Option<Unit>,
    /// The words it can be; any where there are none.
    pub choices: Vec<String>,
}

impl Declarable for VehicleValue {
    type Written = Self;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<Self> {
        vehicle_value(fields)
    }

    fn valued(written: Option<&Self>) -> Option<Valued> {
        let written = written?;
        let kind = written.unit.as_ref().map_or(Type::Text, Type::of);
        Some(Valued { choices: written.choices.clone(), ..Valued::any(kind) })
    }

    fn checked(_name: &Name, written: &Self, _proved: &Proved<'_>) -> Option<Self> {
        Some(written.clone())
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { VehicleValue { what, find, unit, choices } }

fn vehicle_value(fields: &mut Fields<'_, '_, '_>) -> Option<VehicleValue> {
    let what = fields.need_text("what", "least flow through the cooler");
    let find = fields.need_text("find", "service manual, cooler flow test");
    let has_unit = fields.item("unit").is_some();
    let unit = unit(fields, "unit");
    let choices = choices(fields, has_unit);
    if has_unit && unit.is_none() {
        return None;
    }
    Some(VehicleValue { what: what?.value, find: find?.value, unit: unit.map(|unit| unit.value), choices })
}

/// The words that the value can be; none where it can be any, or is a quantity.
fn choices(fields: &mut Fields<'_, '_, '_>, has_unit: bool) -> Vec<String> {
    let Some(item) = fields.item("choices") else {
        return Vec::new();
    };
    if has_unit {
        let headline = format!("{} has a unit and choices", fields.owner());
        let diagnostic = Diagnostic::error(&KIND_UNCLEAR, headline).at(item.key, "words, or a quantity?");
        fields.scribe.note(diagnostic.help("take out `unit`, or `choices`"));
    }
    let Some(choices) = fields.texts("choices") else {
        return Vec::new();
    };
    several(fields, &choices);
    choices.value.into_iter().map(|choice| choice.value).collect()
}
