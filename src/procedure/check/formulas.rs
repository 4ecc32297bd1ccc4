//! Every formula of the front matter, proved and kept under the name that it belongs to.

use std::collections::{BTreeMap, BTreeSet};

use super::limits;
use super::names::Names;
use crate::formula::{Formula, Type, Typed};
use crate::procedure::rules::formula_codes::{
    AMOUNT_NOT_KNOWN, CONDITION_NOT_TRUTH, FORMULA_NAME, FORMULA_UNIT,
};
use crate::procedure::written::{
    WrittenCeiling, WrittenGround, WrittenKind, WrittenReading, WrittenSupply, WrittenValue,
};
use crate::procedure::{Criterion, Declarations, Name, Table};
use crate::quantity::Unit;
use crate::source::{Diagnostic, Spanned};
use crate::table::Wording;

/// Every formula of the front matter, proved.
#[derive(Debug, Default)]
pub(in crate::procedure) struct Formulas {
    /// Amounts of materials and parts.
    pub(in crate::procedure) amounts: BTreeMap<Name, Typed>,
    /// How values are computed, and the unit they are shown in.
    pub(in crate::procedure) computed: BTreeMap<Name, (Typed, Unit)>,
    /// Conditions.
    pub(in crate::procedure) truths: BTreeMap<Name, Typed>,
    /// Criteria of readings and values.
    pub(in crate::procedure) criteria: BTreeMap<Name, Criterion>,
    /// Criteria of stages of fasteners, by their group and their place in it.
    pub(in crate::procedure) stages: BTreeMap<(Name, usize), Criterion>,
    /// Formulas of repeats, fasteners and critical acts, by their owner and their key.
    pub(in crate::procedure) flow: BTreeMap<(Name, String), Typed>,
    /// What a repeat has to know at the end of a pass.
    pub(in crate::procedure) end_inputs: BTreeMap<Name, Vec<Spanned<Name>>>,
    /// What the formulas of values and conditions speak of.
    pub(super) inputs: BTreeMap<Name, Vec<Spanned<Name>>>,
    /// What the limits of readings and values speak of.
    pub(in crate::procedure) limit_inputs: BTreeMap<Name, Vec<Spanned<Name>>>,
    /// Every name that some formula speaks of.
    pub(in crate::procedure) used: BTreeSet<Name>,
}

impl Formulas {
    /// How a value is computed, or what a condition asks.
    pub(in crate::procedure) fn formula_of(&self, name: &Name) -> Option<&Typed> {
        self.computed.get(name).map(|(formula, _)| formula).or_else(|| self.truths.get(name))
    }
}

/// Proves formulas and notes what is wrong with them.
pub(in crate::procedure) struct Prover<'n> {
    pub(super) names: &'n Names,
    pub(super) formulas: Formulas,
    pub(super) diagnostics: Vec<Diagnostic>,
}

/// Proves every formula.
pub(super) fn prove(declarations: &Declarations, names: &Names) -> (Formulas, Vec<Diagnostic>) {
    let mut prover = Prover { names, formulas: Formulas::default(), diagnostics: Vec::new() };
    declarations.prove(&mut prover);
    (prover.formulas, prover.diagnostics)
}

impl Prover<'_> {
    /// Reads and types one formula; a number without a unit has `unit`.
    pub(super) fn prove(
        &mut self,
        wording: &Wording,
        unit: Option<&Unit>,
    ) -> Option<(Typed, Vec<Spanned<Name>>)> {
        let words = wording.spanned();
        let text = match (wording, unit) {
            (Wording::Number(number), Some(unit)) => format!("{} {}", number.value, unit.symbol()),
            _ => words.value.clone(),
        };
        let formula = match Formula::parse(&text, words.span.start) {
            Ok(formula) => formula,
            Err(diagnostics) => {
                self.diagnostics.extend(diagnostics);
                return None;
            }
        };
        let inputs: Vec<_> =
            formula.names().into_iter().map(|name| Spanned::new(Name(name.value), name.span)).collect();
        self.formulas.used.extend(inputs.iter().map(|name| name.value.clone()));
        if !self.all_have_values(&inputs) {
            return None;
        }
        match formula.check(self.names) {
            Ok(typed) => Some((typed, inputs)),
            Err(diagnostics) => {
                self.diagnostics.extend(diagnostics);
                None
            }
        }
    }

    /// Whether each declared name that is spoken of has a value; says so where it can have none.
    fn all_have_values(&mut self, inputs: &[Spanned<Name>]) -> bool {
        let mut all = true;
        for name in inputs {
            let Some(declared) = self.names.get(&name.value) else {
                continue;
            };
            if declared.has_a_value() {
                continue;
            }
            all = false;
            if declared.is_readable() {
                let headline =
                    format!("`{}` is a {}, and a formula cannot use it", name.value, declared.table);
                let diagnostic = Diagnostic::error(&FORMULA_NAME, headline).at(name.span, "it has no value");
                let diagnostic = diagnostic.also(declared.span, "declared here");
                self.diagnostics
                    .push(diagnostic.help("use a reading, a computed value, a vehicle value or a condition"));
            }
        }
        all
    }

    pub(in crate::procedure) fn amount(&mut self, name: &Spanned<Name>, supply: &WrittenSupply) {
        let Some(wording) = &supply.amount else {
            return;
        };
        let Some((typed, inputs)) = self.prove(wording, None) else {
            return;
        };
        for input in inputs {
            if self.names.table(&input.value) != Some(Table::Vehicle) {
                let headline = format!("the amount of `{}` is not known before the job begins", name.value);
                let diagnostic = Diagnostic::error(&AMOUNT_NOT_KNOWN, headline);
                let diagnostic = diagnostic.at(input.span, "only known during the job");
                self.diagnostics
                    .push(diagnostic.help("use numbers and vehicle values only: the kit is packed before"));
            }
        }
        self.formulas.amounts.insert(name.value.clone(), typed);
    }

    pub(in crate::procedure) fn condition(&mut self, name: &Spanned<Name>, ground: &WrittenGround) {
        match ground {
            WrittenGround::If(formula) => self.truth(name, formula),
            WrittenGround::Failed(result) => {
                let input = Spanned::new(Name(result.value.clone()), result.span);
                self.formulas.inputs.insert(name.value.clone(), vec![input]);
            }
            WrittenGround::Missed(_) | WrittenGround::GaveUp(_) => {}
        }
    }

    fn truth(&mut self, name: &Spanned<Name>, wording: &Wording) {
        let Some((typed, inputs)) = self.prove(wording, None) else {
            return;
        };
        if typed.result_type() != Type::Truth {
            let headline = format!("the condition `{}` is neither true nor false", name.value);
            let diagnostic = Diagnostic::error(&CONDITION_NOT_TRUTH, headline);
            let label = format!("this is {}", typed.result_type());
            let diagnostic = diagnostic.at(wording.spanned().span, label);
            self.diagnostics.push(diagnostic.help("compare it with something: `pan_temp < 30 °C`"));
        }
        self.formulas.inputs.insert(name.value.clone(), inputs);
        self.formulas.truths.insert(name.value.clone(), typed);
    }

    pub(in crate::procedure) fn value(&mut self, name: &Spanned<Name>, value: &WrittenValue) {
        let proved = self.prove(&value.formula, Some(&value.unit.value));
        let mut unit = value.unit.value.clone();
        if let Some((typed, inputs)) = proved {
            unit = shown_in(&typed, unit);
            self.fits_unit(name, value, &typed, &unit);
            self.formulas.inputs.insert(name.value.clone(), inputs);
            self.formulas.computed.insert(name.value.clone(), (typed, unit.clone()));
        }
        let owner = limits::Owner { name: &name.value, unit: &unit, declared: value.unit.span };
        self.criterion(&owner, &value.criterion);
    }

    fn fits_unit(&mut self, name: &Spanned<Name>, value: &WrittenValue, typed: &Typed, unit: &Unit) {
        let wanted = Type::of(unit);
        if typed.result_type() == wanted {
            return;
        }
        let headline = format!("the formula of `{}` does not have the value's unit", name.value);
        let diagnostic = Diagnostic::error(&FORMULA_UNIT, headline);
        let diagnostic =
            diagnostic.at(value.formula.spanned().span, format!("this is {}", typed.result_type()));
        let diagnostic = diagnostic.also(value.unit.span, format!("`{unit}` measures {wanted}"));
        self.diagnostics.push(diagnostic.help("change the unit, or multiply or divide by what is missing"));
    }

    pub(in crate::procedure) fn reading(&mut self, name: &Spanned<Name>, reading: &WrittenReading) {
        let one = Unit::one();
        let (unit, declared, criterion) = match &reading.kind {
            WrittenKind::Quantity { unit, criterion, .. } => (&unit.value, unit.span, criterion),
            WrittenKind::Count(criterion) => (&one, name.span, criterion),
            _ => return,
        };
        let owner = limits::Owner { name: &name.value, unit, declared };
        self.criterion(&owner, criterion);
        self.ceiling(&owner, reading.handling.ceiling.as_ref());
    }

    /// What must never be passed is of the kind of the reading, as a limit is.
    fn ceiling(&mut self, owner: &limits::Owner<'_>, written: Option<&WrittenCeiling>) {
        let Some(written) = written else { return };
        let ends = [("never_below", &written.never_below), ("never_above", &written.never_above)];
        for (key, wording) in ends {
            if let Some(typed) = wording.as_ref().and_then(|wording| self.limit(owner, wording)) {
                self.formulas.flow.insert((owner.name.clone(), key.to_owned()), typed);
            }
        }
    }
}

/// A difference of two temperatures is shown in degrees of difference, though the file says `°C`.
fn shown_in(typed: &Typed, unit: Unit) -> Unit {
    let difference = unit.as_difference();
    if typed.result_type() == Type::of(&difference) { difference } else { unit }
}
