//! `[values]`.

use super::criterion::{WrittenCriterion, criterion};
use super::handling::sides;
use crate::formula::Typed;
use crate::procedure::check::{Proved, Prover};
use crate::procedure::declarable::Declarable;
use crate::procedure::link::all_fields;
use crate::procedure::{CheckedProcedure, Criterion, Name, Sides};
use crate::quantity::Unit;
use crate::source::Spanned;
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

    fn prove(name: &Spanned<Name>, written: &WrittenValue, prover: &mut Prover<'_>) {
        prover.value(name, written);
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

    fn words<'p>(&'p self, _procedure: &'p CheckedProcedure) -> Option<&'p str> {
        Some(&self.what)
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
