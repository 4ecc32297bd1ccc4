//! `[values]`.

use super::criterion::{WrittenCriterion, criterion};
use super::handling::sides;
use crate::formula::{Type, Typed};
use crate::procedure::check::{Owner, Proved, Prover, Valued};
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::link::all_fields;
use crate::procedure::rules::formula_codes::FORMULA_UNIT;
use crate::procedure::{Criterion, Name, Sides};
use crate::quantity::Unit;
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, Wording, unit};

/// A computed value, its formulas still texts.
#[derive(Clone, Debug)]
pub struct WrittenValue {
    /// What it is.
    pub what: String,
    /// Why it is computed.
    pub why: Option<String>,
    /// How it is computed.
    pub formula: Wording,
    /// The unit it is shown in.
    pub unit: Spanned<Unit>,
    /// How it is judged.
    pub criterion: WrittenCriterion,
    /// What to do when it fails.
    pub fails: Option<String>,
    /// What to do when it is too low, or too high.
    pub sides: Sides,
    /// Where the limits come from.
    pub source: Option<String>,
}

/// Something that is computed.
#[derive(Clone, Debug)]
pub struct Value {
    /// What it is.
    pub what: String,
    /// Why it is computed.
    pub why: Option<String>,
    /// How it is computed.
    pub formula: Typed,
    /// The unit it is shown in.
    pub unit: Unit,
    /// How it is judged.
    pub criterion: Criterion,
    /// What to do when it fails.
    pub fails: Option<String>,
    /// What to do when it is too low, or too high.
    pub sides: Sides,
    /// Where the limits come from.
    pub source: Option<String>,
}

impl Declarable for Value {
    type Written = WrittenValue;
    const UNMENTIONED: &'static str = "never computed";

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenValue> {
        value(fields)
    }

    fn valued(written: Option<&WrittenValue>) -> Option<Valued> {
        written.map(|value| Valued::any(Type::of(&value.unit.value)))
    }

    fn prove(name: &Spanned<Name>, written: &WrittenValue, prover: &mut Prover<'_>) {
        prove_value(prover, name, written);
    }

    fn checked(name: &Name, written: &WrittenValue, proved: &Proved<'_>) -> Option<Self> {
        let (formula, unit) = proved.formulas.computed.get(name)?;
        Some(Self {
            what: written.what.clone(),
            why: written.why.clone(),
            formula: formula.clone(),
            unit: unit.clone(),
            criterion: proved.formulas.criteria.get(name)?.clone(),
            fails: written.fails.clone(),
            sides: written.sides.clone(),
            source: written.source.clone(),
        })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { Value { what, why, formula, unit, criterion, fails, sides, source } }

fn value(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenValue> {
    let what = fields.need_text("what", "flow through the cooler");
    let why = fields.text("why");
    if fields.item("formula").is_none() {
        fields.missing("formula", "'caught / took'");
    }
    let formula = fields.formula("formula");
    if fields.item("unit").is_none() {
        fields.missing("unit", "\"L/min\"");
    }
    let unit = unit(fields, "unit");
    let criterion = criterion(fields).unwrap_or(WrittenCriterion::InformationOnly);
    let sides = sides(fields, &criterion);
    let fails = fields.text("fails");
    let source = fields.text("source");
    Some(WrittenValue {
        what: what?.value,
        why: why.map(|why| why.value),
        formula: formula?,
        unit: unit?,
        criterion,
        fails: fails.map(|fails| fails.value),
        sides,
        source: source.map(|source| source.value),
    })
}

fn prove_value(prover: &mut Prover<'_>, name: &Spanned<Name>, value: &WrittenValue) {
    let formula = prover.prove(&value.formula, Some(&value.unit.value));
    let mut unit = value.unit.value.clone();
    if let Some((typed, inputs)) = formula {
        unit = shown_in(&typed, unit);
        fits_unit(prover, name, value, &typed, &unit);
        prover.formulas.inputs.insert(name.value.clone(), inputs);
        prover.formulas.computed.insert(name.value.clone(), (typed, unit.clone()));
    }
    let owner = Owner { name: &name.value, unit: &unit, declared: value.unit.span };
    prover.criterion(&owner, &value.criterion);
}

fn fits_unit(
    prover: &mut Prover<'_>,
    name: &Spanned<Name>,
    value: &WrittenValue,
    typed: &Typed,
    unit: &Unit,
) {
    let wanted = Type::of(unit);
    if typed.result_type() == wanted {
        return;
    }
    let headline = format!("the formula of `{}` does not have the value's unit", name.value);
    let diagnostic = Diagnostic::error(&FORMULA_UNIT, headline);
    let diagnostic = diagnostic.at(value.formula.spanned().span, format!("this is {}", typed.result_type()));
    let diagnostic = diagnostic.also(value.unit.span, format!("`{unit}` measures {wanted}"));
    prover.diagnostics.push(diagnostic.help("change the unit, or multiply or divide by what is missing"));
}

/// A difference of two temperatures is shown in degrees of difference, though the file says `°C`.
fn shown_in(typed: &Typed, unit: Unit) -> Unit {
    let difference = unit.as_difference();
    if typed.result_type() == Type::of(&difference) { difference } else { unit }
}
