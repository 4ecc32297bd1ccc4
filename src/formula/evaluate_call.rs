//! The working out of a call: each argument in the unit and within the range that its parameter names.

use super::evaluate::{Evaluator, Known, Worked};
use super::functions::row_unit;
use super::proof::{Passed, Proved};
use super::{EvalProblem, Formula, NoNames, Value};
use crate::quantity::{Num, Quantity, Unit};
use crate::source::Span;
use crate::trade::{Answer, Argument, Function, Given, Parameter, Refusal, Shape, Sort};

impl Evaluator<'_> {
    pub(super) fn call(
        &mut self,
        function: &'static Function,
        passed: &[Passed],
        call: &Proved,
    ) -> Worked<Known> {
        let mut arguments = Vec::with_capacity(passed.len());
        let mut same_unit = None;
        for (parameter, passed) in function.parameters.iter().zip(passed) {
            let (argument, unit) = self.argument(function, parameter, passed, call.span)?;
            if matches!(parameter.sort, Sort::Same | Sort::SameAmount) {
                same_unit = same_unit.or(unit);
            }
            arguments.push(argument);
        }
        let answer = (function.call)(&Given::new(function.parameters, &arguments))
            .map_err(|refusal| refused(function, &refusal, passed, call.span))?;
        for assumption in function.assumes {
            self.assume((*assumption).to_owned());
        }
        Ok(answered(function, answer, same_unit))
    }

    fn argument(
        &mut self,
        function: &Function,
        parameter: &Parameter,
        passed: &Passed,
        call: Span,
    ) -> Worked<(Argument, Option<Unit>)> {
        match passed {
            Passed::One(part) => self.one(function, parameter, part),
            Passed::Many(parts) => self.many(function, parameter, parts),
            Passed::Default => self.default(function, parameter, call),
        }
    }

    fn one(
        &mut self,
        function: &Function,
        parameter: &Parameter,
        part: &Proved,
    ) -> Worked<(Argument, Option<Unit>)> {
        match self.work_out(part)? {
            Known::Text(text) => Ok((
                Argument::Text(chosen(function, parameter, text, part.span)?),
                None,
            )),
            Known::Number { base, unit } => {
                let number = in_range(function, parameter, base, part.span)?;
                Ok((Argument::Number(number), unit))
            }
            Known::Truth(_) => Ok((Argument::Number(Num::ZERO), None)),
        }
    }

    fn many(
        &mut self,
        function: &Function,
        parameter: &Parameter,
        parts: &[Proved],
    ) -> Worked<(Argument, Option<Unit>)> {
        let mut numbers = Vec::with_capacity(parts.len());
        let mut first_unit = None;
        for part in parts {
            let (base, unit) = self.number(part)?;
            numbers.push(in_range(function, parameter, base, part.span)?);
            first_unit = first_unit.or(unit);
        }
        Ok((Argument::Many(numbers), first_unit))
    }

    /// The default of the row, which the person is told.
    fn default(
        &mut self,
        function: &Function,
        parameter: &Parameter,
        call: Span,
    ) -> Worked<(Argument, Option<Unit>)> {
        let text = parameter.default.unwrap_or_default();
        self.assume(format!(
            "{} of `{}` is {text}, since it was not given",
            parameter.name, function.name
        ));
        if matches!(parameter.sort, Sort::Text | Sort::Choice(_)) {
            return Ok((Argument::Text(text.to_owned()), None));
        }
        match default_value(text) {
            Some(Value::Quantity(quantity)) => Ok((
                Argument::Number(in_range(function, parameter, quantity.base(), call)?),
                None,
            )),
            _ => Err(EvalProblem::OutOfRange {
                message: format!("`{}` of `{}` must be given", parameter.name, function.name),
                given: "it has no usable default".to_owned(),
                span: call,
            }),
        }
    }
}

/// What a default is worth; a test of the tables holds every row to one that can be read.
fn default_value(text: &str) -> Option<Value> {
    let typed = Formula::parse(text, 0).ok()?.check(&NoNames).ok()?;
    typed.evaluate(&NoNames).ok().map(|outcome| outcome.value)
}

/// The number in the parameter's unit, if the parameter allows it.
fn in_range(function: &Function, parameter: &Parameter, base: Num, span: Span) -> Worked<Num> {
    let number = in_sort(parameter.sort, base);
    if parameter.allows(number) {
        return Ok(number);
    }
    let unit = parameter
        .sort
        .unit()
        .map(|unit| format!(" {unit}"))
        .unwrap_or_default();
    Err(EvalProblem::OutOfRange {
        message: format!(
            "`{}` of `{}` must be {}",
            parameter.name,
            function.name,
            parameter.range().unwrap_or_default()
        ),
        given: format!("this is {}{unit}", number.shown()),
        span,
    })
}

fn in_sort(sort: Sort, base: Num) -> Num {
    match sort.unit() {
        Some(unit) => Quantity::from_base(base, &row_unit(unit)).number,
        None => base,
    }
}

/// A text that is not written out is known only now.
fn chosen(function: &Function, parameter: &Parameter, text: String, span: Span) -> Worked<String> {
    match parameter.sort {
        Sort::Choice(choices) if !choices.contains(&text.as_str()) => Err(EvalProblem::OutOfRange {
            message: format!(
                "`{}` of `{}` must be one of {}",
                parameter.name,
                function.name,
                choices.join(", ")
            ),
            given: format!("this is \"{text}\""),
            span,
        }),
        _ => Ok(text),
    }
}

/// A refusal points at the argument that is at fault.
fn refused(function: &Function, refusal: &Refusal, passed: &[Passed], call: Span) -> EvalProblem {
    let parameter = refusal.parameter.as_deref();
    let position = parameter.and_then(|name| function.position(name));
    let span = match position.and_then(|position| passed.get(position)) {
        Some(Passed::One(part)) => part.span,
        Some(Passed::Many(parts)) => parts
            .iter()
            .map(|part| part.span)
            .reduce(Span::to)
            .unwrap_or(call),
        Some(Passed::Default) | None => call,
    };
    let message = match parameter {
        Some(name) => format!("`{name}` of `{}`: {}", function.name, refusal.message),
        None => format!("`{}`: {}", function.name, refusal.message),
    };
    EvalProblem::OutOfRange {
        message,
        given: "with this value".to_owned(),
        span,
    }
}

/// The answer in base units, with the unit that the row names or that the arguments have.
fn answered(function: &Function, answer: Answer, same_unit: Option<Unit>) -> Known {
    let number = match answer {
        Answer::Truth(truth) => return Known::Truth(truth),
        Answer::Text(text) => return Known::Text(text),
        Answer::Number(number) => number,
    };
    match function.result {
        Shape::Amount(unit) | Shape::Temperature(unit) => {
            let quantity = Quantity::new(number, row_unit(unit));
            Known::Number {
                base: quantity.base(),
                unit: Some(quantity.unit),
            }
        }
        Shape::Same => Known::Number {
            base: number,
            unit: same_unit,
        },
        _ => Known::Number {
            base: number,
            unit: None,
        },
    }
}
