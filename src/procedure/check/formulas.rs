//! Every formula of the front matter, proved and kept under the name that it belongs to.

use std::collections::{BTreeMap, BTreeSet};

use super::names::Names;
use crate::formula::{Formula, Typed};
use crate::procedure::rules::formula_codes::FORMULA_NAME;
use crate::procedure::{Criterion, Name};
use crate::quantity::{Unit, with_unit};
use crate::source::{Diagnostic, Spanned};
use crate::table::Wording;

/// Every formula of the front matter, proved.
#[derive(Debug, Default)]
pub(in crate::procedure) struct Formulas {
    /// How values are computed, and the unit they are shown in.
    pub(in crate::procedure) computed: BTreeMap<Name, (Typed, Unit)>,
    /// Conditions.
    pub(in crate::procedure) truths: BTreeMap<Name, Typed>,
    /// Criteria of readings and values.
    pub(in crate::procedure) criteria: BTreeMap<Name, Criterion>,
    /// Criteria of stages of fasteners, by their group and their place in it.
    pub(in crate::procedure) stages: BTreeMap<(Name, usize), Criterion>,
    /// Formulas of supplies, repeats, fasteners and critical acts, by their owner and their key.
    pub(in crate::procedure) flow: BTreeMap<(Name, String), Typed>,
    /// What a repeat has to know at the end of a pass.
    pub(in crate::procedure) end_inputs: BTreeMap<Name, Vec<Spanned<Name>>>,
    /// What the formulas of values and conditions speak of.
    pub(in crate::procedure) inputs: BTreeMap<Name, Vec<Spanned<Name>>>,
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
    pub(in crate::procedure) names: &'n Names,
    pub(in crate::procedure) formulas: Formulas,
    pub(in crate::procedure) diagnostics: Vec<Diagnostic>,
}

impl Prover<'_> {
    /// Reads and types one formula; a number without a unit has `unit`.
    pub(in crate::procedure) fn prove(
        &mut self,
        wording: &Wording,
        unit: Option<&Unit>,
    ) -> Option<(Typed, Vec<Spanned<Name>>)> {
        let words = wording.spanned();
        let text = match (wording, unit) {
            (Wording::Number(number), Some(unit)) => with_unit(&number.value, unit.symbol()),
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
            formula.names().into_iter().map(|name| Spanned::new(Name::from(name.value), name.span)).collect();
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
            if declared.is_readable {
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
}
