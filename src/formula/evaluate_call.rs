//! The working out of a call: each argument in the unit and within the range that its parameter names.

use super::evaluate::{Evaluator, Worked};
use super::functions::row_unit;
use super::known::Known;
use super::proof::{Passed, Proved};
use super::suggested::Suggested;
use super::trace as told;
use super::usual::shown_unit;
use super::{EvalProblem, Formula, NoNames, Type, Value};
use crate::quantity::{Dimension, Num, Quantity, Unit};
use crate::source::Span;
use crate::trade::{Answer, Argument, Function, Given, Parameter, Refusal, Shape, Sort};

/// One parameter of the function that is being called.
#[derive(Clone, Copy)]
struct Slot<'a> {
    function: &'a Function,
    parameter: &'a Parameter,
}

/// The units in which the arguments of a call came.
#[derive(Default)]
pub(super) struct Shown {
    /// The first of the parameters that are all of one sort, a default included.
    pub(super) same: Option<Suggested>,
    /// The first of those that are all of the other sort.
    other: Option<Suggested>,
    /// Those that the person gave, in the order of the parameters.
    given: Vec<Suggested>,
}

impl Shown {
    /// Who thinks in lbf·ft wants the answer in lbf·ft: the unit of the first argument that measures what the answer
    /// does, else that of the row. Plain numbers say nothing: a share of two volumes stays a percentage.
    fn like(self, row: Unit) -> Unit {
        if row.dimension() == Dimension::NONE {
            return row;
        }
        let mut given = self.given.iter().map(Suggested::unit);
        let alike = given.find(|given| Type::of(given) == Type::of(&row));
        alike.unwrap_or(row)
    }
}

/// What is passed to a function for one parameter, and the unit it came in.
type Filled = (Argument, Option<Suggested>);

impl Evaluator<'_> {
    pub(super) fn call(
        &mut self,
        function: &'static Function,
        passed: &[Passed],
        call: &Proved,
    ) -> Worked<Known<'static>> {
        let mut arguments = Vec::with_capacity(passed.len());
        let mut shown = Shown::default();
        for (parameter, passed) in function.parameters.iter().zip(passed) {
            let (argument, unit) = self.argument(Slot { function, parameter }, passed, call.span)?;
            if !matches!(passed, Passed::Default) {
                shown.given.extend(unit.clone());
            }
            if matches!(parameter.sort, Sort::Same | Sort::SameAmount) {
                shown.same = shown.same.or(unit);
            } else if parameter.sort == Sort::Other {
                shown.other = shown.other.or(unit);
            }
            arguments.push(argument);
        }
        let answer = (function.call)(&Given::new(function.parameters, &arguments))
            .map_err(|refusal| refused(function, &refusal, passed, call.span))?;
        for assumption in function.assumes {
            self.assume(|| (*assumption).to_owned());
        }
        let answer = match answer {
            Answer::Noted { number, note } => {
                self.note(note);
                Answer::Number(number)
            }
            answer => answer,
        };
        Ok(answered(function, answer, shown))
    }

    fn argument(&mut self, slot: Slot<'_>, passed: &Passed, call: Span) -> Worked<Filled> {
        match passed {
            Passed::One(part) => self.one(slot, part),
            Passed::Many(parts) => self.many(slot, parts),
            Passed::Default => self.default(slot, call),
        }
    }

    fn one(&mut self, slot: Slot<'_>, part: &Proved) -> Worked<Filled> {
        match self.work_out(part)? {
            Known::Text(text) => {
                let text = slot.chosen(text.into_owned(), part.span)?;
                self.pass(|| slot.passed(text.clone(), part.span));
                Ok((Argument::Text(text), None))
            }
            Known::Number { base, unit } => {
                let number = slot.in_range(base, unit.as_ref(), part)?;
                self.pass(|| slot.passed(shown(base, unit.as_ref(), part), part.span));
                Ok((Argument::Number(number), unit))
            }
            // The proof rules out parameters that are true or false.
            Known::Truth(_) => Ok((Argument::Number(Num::ZERO), None)),
        }
    }

    fn many(&mut self, slot: Slot<'_>, parts: &[Proved]) -> Worked<Filled> {
        let mut numbers = Vec::with_capacity(parts.len());
        let mut first_unit = None;
        for part in parts {
            let (base, unit) = self.number(part)?;
            numbers.push(slot.in_range(base, unit.as_ref(), part)?);
            self.pass(|| slot.passed(shown(base, unit.as_ref(), part), part.span));
            first_unit = first_unit.or(unit);
        }
        Ok((Argument::Many(numbers), first_unit))
    }

    /// The default of the row, which the person is told.
    fn default(&mut self, slot: Slot<'_>, call: Span) -> Worked<Filled> {
        let Slot { function, parameter } = slot;
        let text = parameter.default.unwrap_or_default();
        self.assume(|| {
            format!("`{}` of `{}` is {text}, since it was not given", parameter.name, function.name)
        });
        if matches!(parameter.sort, Sort::Text | Sort::Choice(_)) {
            return Ok((Argument::Text(text.to_owned()), None));
        }
        match default_value(text) {
            Some(Value::Quantity(quantity)) => {
                let number = in_sort(parameter.sort, quantity.base());
                Ok((Argument::Number(number), Some(Suggested::Unit(quantity.unit))))
            }
            _ => Err(EvalProblem::OutOfRange {
                message: format!("`{}` of `{}` must be given", parameter.name, function.name),
                given: "it has no usable default".to_owned(),
                span: call,
            }),
        }
    }
}

impl Slot<'_> {
    /// The number in the parameter's unit, if the parameter allows it.
    fn in_range(self, base: Num, unit: Option<&Suggested>, part: &Proved) -> Worked<Num> {
        let number = in_sort(self.parameter.sort, base);
        if self.parameter.allows(number) {
            return Ok(number);
        }
        let given = match self.parameter.sort.unit() {
            Some(unit) => Quantity::new(number, row_unit(unit)),
            None => Quantity::from_base(base, &shown_unit(unit.map(Suggested::unit), part.gives)),
        };
        Err(EvalProblem::OutOfRange {
            message: format!("{} must be {}", self.named(), self.parameter.range().unwrap_or_default()),
            given: format!("this is {given}"),
            span: part.span,
        })
    }

    /// A text that is not written out is known only now.
    fn chosen(self, text: String, span: Span) -> Worked<String> {
        match self.parameter.sort {
            Sort::Choice(choices) if !choices.contains(&text.as_str()) => Err(EvalProblem::OutOfRange {
                message: format!("{} must be one of {}", self.named(), choices.join(", ")),
                given: format!("this is \"{text}\""),
                span,
            }),
            _ => Ok(text),
        }
    }

    fn passed(self, value: String, span: Span) -> told::Passed {
        told::Passed { name: self.parameter.name, meaning: self.parameter.meaning, value, span }
    }

    fn named(self) -> String {
        format!("`{}` of `{}`", self.parameter.name, self.function.name)
    }
}

/// A value as it was understood, in the unit that it was given in.
fn shown(base: Num, unit: Option<&Suggested>, part: &Proved) -> String {
    Quantity::from_base(base, &shown_unit(unit.map(Suggested::unit), part.gives)).to_string()
}

/// What a default is worth; a test of the tables holds every row to one that can be read.
fn default_value(text: &str) -> Option<Value> {
    let typed = Formula::parse(text, 0).ok()?.check(&NoNames).ok()?;
    typed.evaluate(&NoNames).ok()
}

fn in_sort(sort: Sort, base: Num) -> Num {
    if sort == Sort::Date {
        return Quantity::from_base(base, &Unit::date()).number;
    }
    match sort.unit() {
        Some(unit) => Quantity::from_base(base, &row_unit(unit)).number,
        None => base,
    }
}

/// A refusal points at the argument that is at fault.
pub(super) fn refused(function: &Function, refusal: &Refusal, passed: &[Passed], call: Span) -> EvalProblem {
    let parameter = refusal.parameter.as_deref();
    let position = parameter.and_then(|name| function.position(name));
    let span = match position.and_then(|position| passed.get(position)) {
        Some(Passed::One(part)) => part.span,
        Some(Passed::Many(parts)) => parts.iter().map(|part| part.span).reduce(Span::to).unwrap_or(call),
        Some(Passed::Default) | None => call,
    };
    let said = &refusal.message;
    let message = match parameter {
        Some(name) if said.starts_with("must ") => format!("`{name}` of `{}` {said}", function.name),
        Some(name) => format!("`{name}` of `{}`: {said}", function.name),
        None => format!("`{}`: {said}", function.name),
    };
    EvalProblem::OutOfRange { message, given: "with this value".to_owned(), span }
}

/// The answer in base units, with the unit that the arguments have or that the row names.
pub(super) fn answered(function: &Function, answer: Answer, shown: Shown) -> Known<'static> {
    let number = match answer {
        Answer::Truth(truth) => return Known::Truth(truth),
        Answer::Text(text) => return Known::Text(text.into()),
        Answer::Number(number) | Answer::Noted { number, .. } => number,
    };
    match function.result {
        Shape::Amount(unit) | Shape::Temperature(unit) => {
            let quantity = Quantity::new(number, row_unit(unit));
            Known::Number { base: quantity.base(), unit: Some(Suggested::Unit(shown.like(quantity.unit))) }
        }
        Shape::Date => {
            let date = Quantity::new(number, Unit::date());
            Known::Number { base: date.base(), unit: Some(Suggested::Unit(date.unit)) }
        }
        Shape::Same => Known::Number { base: number, unit: shown.same },
        Shape::Other => Known::Number { base: number, unit: shown.other },
        Shape::Difference => Known::Number { base: number, unit: shown.same.map(Suggested::into_difference) },
        _ => Known::Number { base: number, unit: None },
    }
}
