//! `[vehicle]`: what must be known of this vehicle, and where a person finds it.

use super::choices::several;
use super::codes::KIND_UNCLEAR;
use super::result_of::ResultOf;
use super::vehicle_codes::USUAL_WRONG;
use crate::formula::Type;
use crate::procedure::Name;
use crate::procedure::check::{Proved, Valued};
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::link::all_fields;
use crate::quantity::{Unit, parse_entry};
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
    /// What people take where nobody gives it.
    pub usual: Option<Usual>,
    /// The result of an earlier procedure of the same job that it is.
    pub handed_on: Option<ResultOf>,
}

/// What people take for a figure that a source may not give: never a torque, a capacity or a clearance.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Usual {
    /// As it would be typed.
    pub text: String,
    /// Why it is common practice.
    pub why: String,
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

all_fields! {
    VehicleValue { what, find, unit, choices, usual, handed_on }
    Usual { text, why }
}

fn vehicle_value(fields: &mut Fields<'_, '_, '_>) -> Option<VehicleValue> {
    let what = fields.need_text("what", "least flow through the cooler");
    let find = fields.need_text("find", "service manual, cooler flow test");
    let has_unit = fields.item("unit").is_some();
    let unit = unit(fields, "unit");
    let choices = choices(fields, has_unit);
    let unit = unit.map(|unit| unit.value);
    let usual = usual(fields, unit.as_ref(), &choices);
    let handed_on = fields.text("handed_on").and_then(|written| ResultOf::read(fields, &written));
    if has_unit && unit.is_none() {
        return None;
    }
    Some(VehicleValue { what: what?.value, find: find?.value, unit, choices, usual, handed_on })
}

/// What is usual, with the reason.
fn usual(fields: &mut Fields<'_, '_, '_>, unit: Option<&Unit>, choices: &[String]) -> Option<Usual> {
    let why = fields.text("usual_why");
    let usual = fields.text("usual")?;
    let is_torque =
        unit.is_some_and(|unit| Unit::parse("N·m").is_ok_and(|torque| unit.is_of_the_kind_of(&torque)));
    let is_read = unit.is_none_or(|unit| parse_entry(&usual.value, unit).is_ok());
    let is_choice = choices.is_empty() || choices.contains(&usual.value);
    let trouble = match why {
        _ if is_torque => "a torque comes from the vehicle's service information, or from nowhere",
        None => "nothing says why it is usual",
        Some(why) if is_read && is_choice => return Some(Usual { text: usual.value, why: why.value }),
        Some(_) => "it is no value of this kind",
    };
    let headline = format!("{} has no usual value like this", fields.owner());
    let diagnostic = Diagnostic::error(&USUAL_WRONG, headline).at(usual.span, trouble);
    fields
        .scribe
        .note(diagnostic.help("write `usual = \"10 s\"` with `usual_why = \"...\"`, or take it out"));
    None
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
