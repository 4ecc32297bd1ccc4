//! `[watches]`.

use super::criterion::{WrittenCriterion, criterion, limits_missing};
use crate::procedure::check::{Owner, Proved, Prover};
use crate::procedure::declarable::{Called, Declarable, Spoken};
use crate::procedure::link::all_fields;
use crate::procedure::{Criterion, Name, Table};
use crate::quantity::Unit;
use crate::source::Spanned;
use crate::table::{Fields, unit};

/// A limit that stays in force over several steps, its names not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenWatch {
    /// What is watched.
    pub what: String,
    /// The readings that are judged by it.
    pub readings: Vec<Spanned<String>>,
    /// The unit of its limits.
    pub unit: Spanned<Unit>,
    /// The limits.
    pub criterion: WrittenCriterion,
}

/// A limit that is in force from the end of one step to the end of another.
#[derive(Clone, Debug)]
pub struct Watch {
    /// What is watched.
    pub what: String,
    /// The unit of its limits.
    pub unit: Unit,
    /// The readings that are judged by it.
    pub readings: Vec<Name>,
    /// Its limits.
    pub criterion: Criterion,
}

impl Declarable for Watch {
    type Written = WrittenWatch;
    const IN_FRONT: bool = true;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenWatch> {
        watch(fields)
    }

    fn spoken(written: &WrittenWatch) -> Vec<Spoken<'_>> {
        let judged = |name| Spoken::of(name, &[Table::Readings], "what a limit in force judges").not_used();
        written.readings.iter().map(judged).collect()
    }

    fn prove(name: &Spanned<Name>, written: &WrittenWatch, prover: &mut Prover<'_>) {
        let unit = &written.unit;
        let owner = Owner { name: &name.value, unit: &unit.value, declared: unit.span };
        prover.criterion(&owner, &written.criterion);
    }

    fn checked(name: &Name, written: &WrittenWatch, proved: &Proved<'_>) -> Option<Self> {
        Some(Self {
            what: written.what.clone(),
            unit: written.unit.value.clone(),
            readings: written.readings.iter().map(|name| Name::from(&name.value)).collect(),
            criterion: proved.formulas.criteria.get(name)?.clone(),
        })
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

all_fields! { Watch { what, unit, readings, criterion } }

fn watch(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenWatch> {
    let what = fields.need_text("what", "the fluid stays below 40 °C");
    if fields.item("readings").is_none() {
        fields.missing("readings", "[\"fluid_temp\"]");
    }
    let readings = fields.texts("readings");
    if fields.item("unit").is_none() {
        fields.missing("unit", "\"°C\"");
    }
    let unit = unit(fields, "unit");
    let criterion = criterion(fields);
    if criterion.is_none() {
        limits_missing(fields, "add `below = \"40 °C\"` or another limit");
    }
    Some(WrittenWatch { what: what?.value, readings: readings?.value, unit: unit?, criterion: criterion? })
}
