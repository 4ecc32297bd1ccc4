//! The limits of readings and values, proved: of the right kind, and the low one below the high one.

use std::cmp::Ordering;

use super::formulas::Prover;
use crate::formula::{NoNames, Type, Typed, Value};
use crate::procedure::rules::formula_codes::LIMIT_UNIT;
use crate::procedure::written::{LIMITS_REVERSED, WrittenBound, WrittenCriterion};
use crate::procedure::{Bound, Criterion, Name};
use crate::quantity::{Kind, Quantity, Unit};
use crate::source::{Diagnostic, Span};
use crate::table::Wording;

/// What a criterion judges.
pub(in crate::procedure) struct Owner<'o> {
    /// The reading or value.
    pub(in crate::procedure) name: &'o Name,
    /// Its unit.
    pub(in crate::procedure) unit: &'o Unit,
    /// Where the unit is declared.
    pub(in crate::procedure) declared: Span,
}

/// What is wrong with a bound has been noted; there is no criterion then.
struct Unproved;

impl Prover<'_> {
    /// Proves a criterion and keeps it under its owner's name.
    pub(in crate::procedure) fn criterion(&mut self, owner: &Owner<'_>, written: &WrittenCriterion) {
        if let Some(criterion) = self.proved(owner, written) {
            self.formulas.criteria.insert(owner.name.clone(), criterion);
        }
    }

    /// Proves a criterion.
    pub(in crate::procedure) fn proved(
        &mut self,
        owner: &Owner<'_>,
        written: &WrittenCriterion,
    ) -> Option<Criterion> {
        match written {
            WrittenCriterion::Limits { lower, upper } => self.limits(owner, lower.as_ref(), upper.as_ref()),
            WrittenCriterion::Target { target, within } => {
                let target = self.limit(owner, target);
                let within = self.within(owner, within);
                Some(Criterion::Target { target: target?, within: within? })
            }
            WrittenCriterion::Nominal(nominal) => Some(Criterion::Nominal(self.limit(owner, nominal)?)),
            WrittenCriterion::InformationOnly => Some(Criterion::InformationOnly),
        }
    }

    fn limits(
        &mut self,
        owner: &Owner<'_>,
        lower: Option<&WrittenBound>,
        upper: Option<&WrittenBound>,
    ) -> Option<Criterion> {
        let low = self.bound(owner, lower);
        let high = self.bound(owner, upper);
        let (low, high) = (low.ok()?, high.ok()?);
        let place = |written: Option<&WrittenBound>| written.map(|written| written.wording.spanned().span);
        if let (Some(low), Some(high)) = (low.as_ref().zip(place(lower)), high.as_ref().zip(place(upper))) {
            self.reversed(owner, low, high);
        }
        Some(Criterion::Limits { lower: low, upper: high })
    }

    /// The bound where one is written; an error where it cannot be proved.
    fn bound(
        &mut self,
        owner: &Owner<'_>,
        written: Option<&WrittenBound>,
    ) -> Result<Option<Bound>, Unproved> {
        let Some(written) = written else {
            return Ok(None);
        };
        let formula = self.limit(owner, &written.wording).ok_or(Unproved)?;
        Ok(Some(Bound { formula, inclusive: written.inclusive }))
    }

    /// A limit has the kind and dimension of what it judges.
    pub(in crate::procedure) fn limit(&mut self, owner: &Owner<'_>, wording: &Wording) -> Option<Typed> {
        let typed = self.depending(owner, wording, owner.unit)?;
        let wanted = Type::of(owner.unit);
        if typed.result_type() == wanted {
            return Some(typed);
        }
        let headline = format!("a limit of `{}` does not have its unit", owner.name);
        let found = typed.result_type();
        let diagnostic =
            Diagnostic::error(&LIMIT_UNIT, headline).at(wording.spanned().span, format!("this is {found}"));
        let label = format!("`{}` is {wanted}", owner.name);
        let help = format!("write {wanted}, for example `{}`", example(owner.unit));
        self.diagnostics.push(diagnostic.also(owner.declared, label).help(help));
        None
    }

    /// How far from the target is still good: an amount of the same dimension, or a part of the target.
    fn within(&mut self, owner: &Owner<'_>, wording: &Wording) -> Option<Typed> {
        let difference = owner.unit.as_difference();
        let typed = self.depending(owner, wording, &difference)?;
        let found = typed.result_type();
        let is_part = owner.unit.kind() == Kind::Difference && found == Type::NUMBER;
        if found == Type::of(&difference) || is_part {
            return Some(typed);
        }
        let headline = format!("`within` of `{}` does not have its unit", owner.name);
        let diagnostic =
            Diagnostic::error(&LIMIT_UNIT, headline).at(wording.spanned().span, format!("this is {found}"));
        let label = format!("`{}` is {}", owner.name, Type::of(owner.unit));
        let help =
            format!("write how far from the target is still good, for example `{}`", example(&difference));
        self.diagnostics.push(diagnostic.also(owner.declared, label).help(help));
        None
    }

    fn depending(&mut self, owner: &Owner<'_>, wording: &Wording, unit: &Unit) -> Option<Typed> {
        let (typed, inputs) = self.prove(wording, Some(unit))?;
        self.formulas.limit_inputs.entry(owner.name.clone()).or_default().extend(inputs);
        Some(typed)
    }

    fn reversed(&mut self, owner: &Owner<'_>, (low, from): (&Bound, Span), (high, to): (&Bound, Span)) {
        let (Some(least), Some(most)) = (constant(&low.formula), constant(&high.formula)) else {
            return;
        };
        let order = least.compare(&most);
        let nothing_between = match order {
            Ok(Ordering::Greater) => true,
            Ok(Ordering::Equal) => !(low.inclusive && high.inclusive),
            _ => false,
        };
        if nothing_between {
            let headline = format!("nothing can be good for `{}`", owner.name);
            let diagnostic = Diagnostic::error(&LIMITS_REVERSED, headline).at(to, "the upper limit");
            let diagnostic = diagnostic.also(from, "the lower limit is not below it");
            self.diagnostics.push(diagnostic.help("exchange them, or correct the one that is mistyped"));
        }
    }
}

/// What a formula without names comes to.
pub(super) fn constant(formula: &Typed) -> Option<Quantity> {
    match formula.evaluate(&NoNames).ok()? {
        Value::Quantity(quantity) => Some(quantity),
        _ => None,
    }
}

fn example(unit: &Unit) -> String {
    match unit.symbol() {
        "" => "4".to_owned(),
        symbol => format!("5 {symbol}"),
    }
}
