//! The working out of a proved formula, in coherent base units.

use std::borrow::Cow;

use super::known::{Known, holds, order};
use super::proof::{IsInstead, Proved, Step};
use super::suggested::Suggested;
use super::trace::{Passed, Told};
use super::tree::Operator;
use super::usual::shown_unit;
use super::{EvalProblem, Type, Value, World};
use crate::quantity::{Kind, Num, Quantity, Unit};
use crate::source::{Span, Spanned};

/// Works formulas out and remembers what it used.
pub(super) struct Evaluator<'a> {
    pub(super) world: &'a dyn World,
    /// What is needed to tell how the result came about; none where nobody asks for it.
    seen: Option<Seen>,
}

/// What a formula used on its way.
#[derive(Default)]
pub(super) struct Seen {
    /// What stood for which name.
    pub(super) substitutions: Vec<Spanned<String>>,
    /// What is told beside the result.
    pub(super) told: Told,
}

/// Told beside a result that left the exact numbers on its way.
const INEXACT: &str = "a number on the way has too many digits to be kept exactly: from there on 15 digits count, and what \
lies exactly on a limit may be judged either way";

pub(super) type Worked<T> = Result<T, EvalProblem>;

impl<'a> Evaluator<'a> {
    /// Keeps the result alone.
    pub(super) fn new(world: &'a dyn World) -> Self {
        Self { world, seen: None }
    }

    /// Keeps what is needed to tell how the result came about as well.
    pub(super) fn telling(world: &'a dyn World) -> Self {
        Self { world, seen: Some(Seen::default()) }
    }

    /// What was used on the way.
    pub(super) fn seen(self) -> Seen {
        self.seen.unwrap_or_default()
    }

    pub(super) fn is_telling(&self) -> bool {
        self.seen.is_some()
    }

    pub(super) fn assume(&mut self, assumption: impl FnOnce() -> String) {
        if let Some(seen) = &mut self.seen {
            add(&mut seen.told.assumptions, assumption());
        }
    }

    pub(super) fn note(&mut self, note: String) {
        if let Some(seen) = &mut self.seen {
            add(&mut seen.told.notes, note);
        }
    }

    pub(super) fn pass(&mut self, passed: impl FnOnce() -> Passed) {
        if let Some(seen) = &mut self.seen {
            seen.told.passed.push(passed());
        }
    }

    pub(super) fn substitute(&mut self, span: Span, shown: impl FnOnce() -> String) {
        if let Some(seen) = &mut self.seen {
            seen.substitutions.push(Spanned::new(shown(), span));
        }
    }

    pub(super) fn work_out<'f>(&mut self, part: &'f Proved) -> Worked<Known<'f>> {
        let known = match &part.step {
            Step::Number(quantity) => number(quantity),
            Step::Text(text) => Known::Text(Cow::Borrowed(text)),
            Step::Truth(truth) => Known::Truth(*truth),
            Step::Name(name) => self.name(name, part)?,
            Step::Negate(inner) => negated(self.work_out(inner)?),
            Step::Not(inner) => Known::Truth(!self.truth(inner)?),
            Step::IsInstead(asked) => Known::Truth(self.is_instead(asked)? != asked.unequal),
            Step::Binary { operator, sides } => self.binary(*operator, &sides.0, &sides.1)?,
            Step::Choose(parts) => {
                let (condition, yes, no) = &**parts;
                let chosen = if self.truth(condition)? { yes } else { no };
                self.work_out(chosen)?
            }
            Step::Call { function, arguments } => self.call(function, arguments, part)?,
            Step::Passes(passes) => self.passes(passes, part)?,
        };
        finite(known, part.span)
    }

    fn name(&mut self, name: &str, part: &Proved) -> Worked<Known<'static>> {
        let value = self.world.value_of(name).ok_or_else(|| EvalProblem::NotKnownYet(name.to_owned()))?;
        let world = self.world;
        self.substitute(part.span, || world.typed(name).unwrap_or_else(|| value.to_string()));
        known(value, part.gives, name)
    }

    /// Whether the part has these words in place of its number.
    fn is_instead(&mut self, asked: &IsInstead) -> Worked<bool> {
        match self.work_out(&asked.of) {
            Ok(_) => Ok(false),
            Err(EvalProblem::NoNumber { words, .. }) => Ok(words == asked.words),
            Err(problem) => Err(problem),
        }
    }

    fn truth(&mut self, part: &Proved) -> Worked<bool> {
        Ok(matches!(self.work_out(part)?, Known::Truth(true)))
    }

    /// The number of a part in base units, and its unit.
    pub(super) fn number(&mut self, part: &Proved) -> Worked<(Num, Option<Suggested>)> {
        match self.work_out(part)? {
            Known::Number { base, unit } => Ok((base, unit)),
            Known::Truth(_) | Known::Text(_) => Ok((Num::ZERO, None)),
        }
    }

    fn binary(&mut self, operator: Operator, left: &Proved, right: &Proved) -> Worked<Known<'static>> {
        match operator {
            Operator::And => Ok(Known::Truth(self.truth(left)? && self.truth(right)?)),
            Operator::Or => Ok(Known::Truth(self.truth(left)? || self.truth(right)?)),
            Operator::Compare(comparison) => {
                let (left, right) = (self.work_out(left)?, self.work_out(right)?);
                Ok(Known::Truth(holds(comparison, order(&left, &right))))
            }
            Operator::Add | Operator::Subtract => self.sum(operator, left, right),
            Operator::Multiply | Operator::Divide => self.product(operator, left, right),
            Operator::Power => self.power(left, right),
        }
    }

    /// Says so where exact numbers come to one that has too many digits to be exact.
    fn note_inexact(&mut self, from: [Num; 2], to: Num) {
        if self.is_telling() && to.exact().is_none() && from.iter().all(|number| number.exact().is_some()) {
            self.note(INEXACT.to_owned());
        }
    }

    fn sum(&mut self, operator: Operator, left: &Proved, right: &Proved) -> Worked<Known<'static>> {
        let (a, a_unit) = self.number(left)?;
        let (b, b_unit) = self.number(right)?;
        let base = if operator == Operator::Add { a + b } else { a - b };
        self.note_inexact([a, b], base);
        let unit = match (kind(left), kind(right)) {
            (Kind::Point, Kind::Point) => a_unit.map(Suggested::into_difference),
            (Kind::Difference, Kind::Point) => b_unit,
            _ => a_unit.or(b_unit),
        };
        Ok(Known::Number { base, unit })
    }

    fn product(&mut self, operator: Operator, left: &Proved, right: &Proved) -> Worked<Known<'static>> {
        let (a, a_unit) = self.number(left)?;
        let (b, b_unit) = self.number(right)?;
        let base = match operator {
            Operator::Multiply => a * b,
            _ => a.checked_div(b).ok_or(EvalProblem::DivisionByZero(right.span))?,
        };
        self.note_inexact([a, b], base);
        let unit = match (a_unit, b_unit) {
            (a_unit, _) if right.gives == Type::NUMBER && a_unit.is_some() => a_unit,
            (_, b_unit) if operator == Operator::Multiply && left.gives == Type::NUMBER => b_unit,
            (Some(a_unit), Some(b_unit)) if operator == Operator::Multiply => Some(a_unit.times(b_unit)),
            (Some(a_unit), Some(b_unit)) => Some(a_unit.per(b_unit)),
            _ => None,
        };
        Ok(Known::Number { base, unit })
    }

    fn power(&mut self, left: &Proved, right: &Proved) -> Worked<Known<'static>> {
        let (base, unit) = self.number(left)?;
        let (exponent, _) = self.number(right)?;
        let whole = whole(exponent).ok_or_else(|| EvalProblem::OutOfRange {
            message: "an exponent must be a whole number from -1000 to 1000".to_owned(),
            given: format!("this is {}", exponent.shown()),
            span: right.span,
        })?;
        let result = base.powi(whole).ok_or(EvalProblem::DivisionByZero(left.span))?;
        self.note_inexact([base, exponent], result);
        let unit = unit.map(|unit| unit.powi(whole));
        Ok(Known::Number { base: result, unit })
    }
}

fn add(told: &mut Vec<String>, text: String) {
    if !told.contains(&text) {
        told.push(text);
    }
}

/// What is handed out for a part, in the unit that suggests itself.
pub(super) fn value(known: Known<'_>, part: &Proved) -> Value {
    shown_in(known, |unit| shown_unit(unit.map(Suggested::unit), part.gives))
}

/// The same with a unit chosen for a number.
pub(super) fn shown_in(known: Known<'_>, unit_of: impl FnOnce(Option<&Suggested>) -> Unit) -> Value {
    match known {
        Known::Truth(truth) => Value::Truth(truth),
        Known::Text(text) => Value::Text(text.into_owned()),
        Known::Number { base, unit } => Value::Quantity(Quantity::from_base(base, &unit_of(unit.as_ref()))),
    }
}

/// A value of the world, if it is of the sort that the scope promised.
pub(super) fn known(value: Value, promised: Type, name: &str) -> Worked<Known<'static>> {
    match (value, promised) {
        (Value::Quantity(quantity), Type::Quantity { .. }) if Type::of(&quantity.unit) == promised => {
            Ok(number(&quantity))
        }
        (Value::Truth(truth), Type::Truth) => Ok(Known::Truth(truth)),
        (Value::Text(text) | Value::Instead(text), Type::Text) => Ok(Known::Text(Cow::Owned(text))),
        (Value::Instead(words), Type::Quantity { .. }) => {
            Err(EvalProblem::NoNumber { name: name.to_owned(), words })
        }
        _ => Err(EvalProblem::WrongValue { name: name.to_owned() }),
    }
}

fn number(quantity: &Quantity) -> Known<'static> {
    let unit = (!quantity.unit.symbol().is_empty()).then(|| Suggested::Unit(quantity.unit.clone()));
    Known::Number { base: quantity.base(), unit }
}

fn negated(known: Known<'_>) -> Known<'_> {
    match known {
        Known::Number { base, unit } => Known::Number { base: -base, unit },
        other => other,
    }
}

fn kind(part: &Proved) -> Kind {
    match part.gives {
        Type::Quantity { kind, .. } => kind,
        Type::Truth | Type::Text => Kind::Difference,
    }
}

/// A whole number from -1000 to 1000.
pub(super) fn whole(number: Num) -> Option<i32> {
    let exact = number.exact().filter(num_rational::Ratio::is_integer)?;
    i32::try_from(*exact.numer()).ok().filter(|whole| whole.abs() <= 1000)
}

/// A number that ran out of what an `f64` can hold has no meaning any more.
fn finite(known: Known<'_>, span: Span) -> Worked<Known<'_>> {
    match known {
        Known::Number { base: Num::Approx(value), .. } if !value.is_finite() || value.abs() >= f64::MAX => {
            Err(EvalProblem::OutOfRange {
                message: "this number became too large".to_owned(),
                given: "too large from here on".to_owned(),
                span,
            })
        }
        known => Ok(known),
    }
}
