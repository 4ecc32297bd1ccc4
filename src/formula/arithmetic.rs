//! The functions of ordinary arithmetic. They keep the unit of what they are given.

use num_rational::Ratio;

use super::interpolation::INTERPOLATED;
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape, Sort, Subject};

const SOURCE: &str = "ordinary arithmetic";

const VALUES: Parameter = Parameter::new("values", Sort::Same, "the values, all of one sort").many();
const X: Parameter = Parameter::new("x", Sort::SameAmount, "the value");
const TO: Parameter =
    Parameter::new("to", Sort::SameAmount, "the step to round to, for example `0.1 L`").above("0");

/// What needs no trade to know.
pub(super) const ARITHMETIC: Subject = Subject {
    name: "arithmetic",
    functions: &[
        Function {
            name: "abs",
            summary: "the value without its sign",
            parameters: &[X],
            result: Shape::Same,
            call: |given| Ok(Answer::Number(given.number("x")?.abs())),
            assumes: &[],
            source: SOURCE,
            example: "abs(3 mm - 5 mm)",
        },
        INTERPOLATED,
        Function {
            name: "max",
            summary: "the largest of the values",
            parameters: &[VALUES],
            result: Shape::Same,
            call: |given| largest(given.many("values")?),
            assumes: &[],
            source: SOURCE,
            example: "max(65 psi, 450 kPa)",
        },
        Function {
            name: "mean",
            summary: "the arithmetic mean of the values",
            parameters: &[VALUES],
            result: Shape::Same,
            call: |given| mean(given.many("values")?),
            assumes: &[],
            source: SOURCE,
            example: "mean(20 °C, 70 °F)",
        },
        Function {
            name: "min",
            summary: "the smallest of the values",
            parameters: &[VALUES],
            result: Shape::Same,
            call: |given| smallest(given.many("values")?),
            assumes: &[],
            source: SOURCE,
            example: "min(65 psi, 450 kPa)",
        },
        Function {
            name: "round",
            summary: "the value rounded to the nearest step, halves away from zero",
            parameters: &[X, TO],
            result: Shape::Same,
            call: |given| rounded(given, nearest),
            assumes: &[],
            source: SOURCE,
            example: "round(2.584 L/min, to = 0.1 L/min)",
        },
        Function {
            name: "round_down",
            summary: "the value rounded down to a whole number of steps",
            parameters: &[X, TO],
            result: Shape::Same,
            call: |given| rounded(given, floor),
            assumes: &[],
            source: SOURCE,
            example: "round_down(2.584 L/min, to = 0.1 L/min)",
        },
        Function {
            name: "round_up",
            summary: "the value rounded up to a whole number of steps, for example of packs",
            parameters: &[X, TO],
            result: Shape::Same,
            call: |given| rounded(given, |steps| -floor(-steps)),
            assumes: &[],
            source: SOURCE,
            example: "round_up(7.2 L, to = 1 L)",
        },
        Function {
            name: "spread",
            summary: "the largest of the values less the smallest",
            parameters: &[VALUES],
            result: Shape::Difference,
            call: |given| spread(given.many("values")?),
            assumes: &[],
            source: SOURCE,
            example: "spread(1.2 s, 1.4 s, 1.3 s)",
        },
        Function {
            name: "sqrt",
            summary: "the square root",
            parameters: &[Parameter::new("x", Sort::SameAmount, "the value").at_least("0")],
            result: Shape::Root,
            call: |given| root(given.number("x")?),
            assumes: &[],
            source: SOURCE,
            example: "sqrt(2.25 cm²)",
        },
        Function {
            name: "standard_deviation",
            summary: "how far the values commonly lie from their mean: the standard deviation of a sample",
            parameters: &[VALUES],
            result: Shape::Difference,
            call: |given| standard_deviation(given.many("values")?),
            assumes: &[],
            source: "sqrt(sum of squares about the mean / (n - 1)); NIST/SEMATECH e-Handbook 1.3.5.6",
            example: "standard_deviation(1.2 s, 1.4 s, 1.3 s)",
        },
        Function {
            name: "sum",
            summary: "the sum of the values",
            parameters: &[Parameter::new("values", Sort::SameAmount, "the values, all of one sort").many()],
            result: Shape::Same,
            call: |given| Ok(Answer::Number(sum(given.many("values")?))),
            assumes: &[],
            source: SOURCE,
            example: "sum(2.1 L, 1.9 L, 500 mL)",
        },
    ],
};

fn no_values() -> Refusal {
    Refusal::of("values", "at least one value is needed")
}

fn largest(values: &[Num]) -> Result<Answer, Refusal> {
    values.iter().max().copied().map(Answer::Number).ok_or_else(no_values)
}

fn smallest(values: &[Num]) -> Result<Answer, Refusal> {
    values.iter().min().copied().map(Answer::Number).ok_or_else(no_values)
}

fn mean(values: &[Num]) -> Result<Answer, Refusal> {
    let count = i64::try_from(values.len()).unwrap_or(i64::MAX);
    sum(values).checked_div(count.into()).map(Answer::Number).ok_or_else(no_values)
}

fn sum(values: &[Num]) -> Num {
    values.iter().fold(Num::ZERO, |sum, value| sum + *value)
}

fn spread(values: &[Num]) -> Result<Answer, Refusal> {
    let ends = values.iter().max().zip(values.iter().min());
    ends.map(|(high, low)| Answer::Number(*high - *low)).ok_or_else(no_values)
}

fn standard_deviation(values: &[Num]) -> Result<Answer, Refusal> {
    let count = Num::from(i64::try_from(values.len()).unwrap_or(i64::MAX));
    let squares = sum(values).checked_div(count).map(|mean| {
        let squares: Vec<Num> = values.iter().map(|value| (*value - mean) * (*value - mean)).collect();
        sum(&squares)
    });
    let variance = squares.and_then(|squares| squares.checked_div(count - Num::ONE));
    variance
        .and_then(Num::sqrt)
        .map(Answer::Number)
        .ok_or_else(|| Refusal::of("values", "at least two values are needed"))
}

fn root(number: Num) -> Result<Answer, Refusal> {
    number.sqrt().map(Answer::Number).ok_or_else(|| Refusal::of("x", "must not be negative"))
}

/// `x` as a whole number of steps, made whole by `whole`.
fn rounded(given: &Given<'_>, whole: fn(Num) -> Num) -> Result<Answer, Refusal> {
    let step = given.number("to")?;
    let steps =
        given.number("x")?.checked_div(step).ok_or_else(|| Refusal::of("to", "must be more than zero"))?;
    Ok(Answer::Number(whole(steps) * step))
}

fn nearest(steps: Num) -> Num {
    match steps {
        Num::Exact(steps) => Num::Exact(steps.round()),
        Num::Approx(steps) => Num::approx(libm::round(steps)),
    }
}

fn floor(steps: Num) -> Num {
    match steps {
        Num::Exact(steps) => Num::Exact(Ratio::from_integer(steps.numer().div_euclid(*steps.denom()))),
        Num::Approx(steps) => Num::approx(libm::floor(steps)),
    }
}
