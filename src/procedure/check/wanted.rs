//! Formulas that have to come to something: a count, a torque, true or false. Each is kept under its owner and a key.

use super::formulas::Prover;
use super::limits;
use crate::formula::Type;
use crate::procedure::Name;
use crate::procedure::rules::formula_codes::{CONDITION_NOT_TRUTH, COUNT_WRONG, FORMULA_UNIT};
use crate::quantity::{Dimension, Kind, Num, Unit};
use crate::source::{Diagnostic, Spanned};
use crate::table::Wording;

/// What a formula has to come to.
#[derive(Clone, Copy)]
pub(in crate::procedure) enum Wanted {
    Truth,
    Number,
    Torque,
    Angle,
    Length,
    Time,
    Amount,
    /// A price; a bare number is one in the shop's currency.
    Money,
    /// A share, or an amount of what the target is.
    Within(Dimension),
}

impl Wanted {
    fn is(self, found: Type) -> bool {
        let measures = |dimension| found == Type::Quantity { dimension, kind: Kind::Difference };
        match self {
            Self::Truth => found == Type::Truth,
            Self::Number => found == Type::NUMBER,
            Self::Torque => measures(Dimension::TORQUE),
            Self::Angle => measures(Dimension::ANGLE),
            Self::Length => measures(Dimension::LENGTH),
            Self::Time => measures(Dimension::TIME),
            Self::Money => measures(Dimension::MONEY),
            Self::Amount => matches!(found, Type::Quantity { .. }),
            Self::Within(dimension) => found == Type::NUMBER || measures(dimension),
        }
    }

    /// The unit of a bare number.
    fn unit(self) -> Option<Unit> {
        matches!(self, Self::Money).then(|| Unit::parse("money").ok()).flatten()
    }

    const fn words(self) -> &'static str {
        match self {
            Self::Truth => "something true or false, such as `drop < 100 rpm`",
            Self::Number => "a number without a unit, such as `3`",
            Self::Torque => "a torque, such as `40 N·m`",
            Self::Angle => "an angle, such as `90 deg`",
            Self::Length => "a length, such as `500 km`",
            Self::Time => "a length of time, such as `18 d`",
            Self::Amount => "a number with its unit, such as `72 mm`",
            Self::Money => "a price, such as `12.50 money`",
            Self::Within(Dimension::ANGLE) => "a share such as `4 %`, or an angle such as `5 deg`",
            Self::Within(_) => "a share such as `4 %`, or a torque such as `2 N·m`",
        }
    }
}

impl Prover<'_> {
    /// Proves a formula and keeps it.
    pub(in crate::procedure) fn keep(
        &mut self,
        name: &Spanned<Name>,
        key: &str,
        wording: &Wording,
        wanted: Wanted,
    ) {
        if let Some(inputs) = self.kept(name, key, wording, wanted) {
            self.formulas.inputs.entry(name.value.clone()).or_default().extend(inputs);
        }
    }

    /// A number of things that are counted. What it comes to without a run must be one.
    pub(in crate::procedure) fn keep_count(
        &mut self,
        name: &Spanned<Name>,
        key: &str,
        wording: &Wording,
        most: usize,
    ) {
        self.keep(name, key, wording, Wanted::Number);
        let Some(count) = self.constant_count(name, key) else {
            return;
        };
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        if count.is_whole() && Num::from(1) <= count && count <= Num::from(most) {
            return;
        }
        let headline = format!("`{key}` of `{}` is no number that can be counted to", name.value);
        let label = format!("this is {}", count.shown());
        let diagnostic = Diagnostic::error(&COUNT_WRONG, headline).at(wording.spanned().span, label);
        self.diagnostics
            .push(diagnostic.help(format!("write a whole number from 1 to {most}, such as `{key} = 3`")));
    }

    /// What a formula of an owner comes to without a run, as a plain number.
    pub(in crate::procedure) fn constant_count(&self, name: &Spanned<Name>, key: &str) -> Option<Num> {
        let formula = self.formulas.flow.get(&(name.value.clone(), key.to_owned()))?;
        limits::constant(formula).map(|count| count.base())
    }

    /// What a pass has to be over for: its inputs may be read in the pass.
    pub(in crate::procedure) fn keep_at_end(&mut self, name: &Spanned<Name>, key: &str, wording: &Wording) {
        if let Some(inputs) = self.kept(name, key, wording, Wanted::Truth) {
            self.formulas.end_inputs.entry(name.value.clone()).or_default().extend(inputs);
        }
    }

    /// Proves a formula and keeps it; what it speaks of.
    pub(in crate::procedure) fn kept(
        &mut self,
        name: &Spanned<Name>,
        key: &str,
        wording: &Wording,
        wanted: Wanted,
    ) -> Option<Vec<Spanned<Name>>> {
        let (typed, inputs) = self.prove(wording, wanted.unit().as_ref())?;
        if !wanted.is(typed.result_type()) {
            let code = if matches!(wanted, Wanted::Truth) { &CONDITION_NOT_TRUTH } else { &FORMULA_UNIT };
            let headline = format!("a formula of `{}` does not come to what it should", name.value);
            let label = format!("this is {}", typed.result_type());
            let diagnostic = Diagnostic::error(code, headline).at(wording.spanned().span, label);
            self.diagnostics.push(diagnostic.help(format!("write {}", wanted.words())));
        }
        self.formulas.flow.insert((name.value.clone(), key.to_owned()), typed);
        Some(inputs)
    }
}
