//! What `bayhand calc --json` writes: a result, or functions and how they are called.

use serde::Serialize;

use super::calc_lesson::{shape, sort};
use crate::formula::{self, Formula, Outcome, Value};
use crate::trade::{Arity, Function, Parameter};

#[derive(Serialize)]
struct Worked<'outcome> {
    formula: &'outcome str,
    result: String,
    exact: Option<String>,
    unit: Option<String>,
    given: Vec<Passed<'outcome>>,
    notes: &'outcome [String],
    assumed: &'outcome [String],
}

#[derive(Serialize)]
struct Passed<'outcome> {
    name: &'outcome str,
    value: &'outcome str,
}

#[derive(Serialize)]
struct Listed<'a> {
    subject: &'a str,
    functions: Vec<Lesson<'a>>,
}

#[derive(Serialize)]
struct Lesson<'a> {
    name: &'a str,
    signature: String,
    summary: &'a str,
    arguments: Vec<Argument<'a>>,
    result: String,
    assumes: &'a [&'a str],
    source: &'a str,
    example: &'a str,
}

#[derive(Serialize)]
struct Argument<'a> {
    name: &'a str,
    meaning: &'a str,
    takes: String,
    several: bool,
    by_name: bool,
    range: Option<String>,
    default: Option<&'a str>,
}

/// A formula and what it comes to.
pub(super) fn result(formula: &Formula, outcome: &Outcome) -> String {
    let quantity = match &outcome.value {
        Value::Quantity(quantity) => Some(quantity),
        Value::Truth(_) | Value::Text(_) | Value::Instead(_) => None,
    };
    written(&Worked {
        formula: formula.text(),
        result: outcome.value.to_string(),
        exact: quantity.map(|quantity| quantity.number.to_exact_text()),
        unit: quantity.map(|quantity| quantity.unit.symbol().to_owned()),
        given: outcome.trace.passed().iter().map(passed).collect(),
        notes: outcome.trace.notes(),
        assumed: outcome.trace.assumptions(),
    })
}

fn passed(passed: &formula::Passed) -> Passed<'_> {
    Passed { name: passed.name, value: &passed.value }
}

/// One function.
pub(super) fn one(function: &Function) -> String {
    written(&lesson(function))
}

/// Functions, by subject.
pub(super) fn list(listed: &[(&str, Vec<&'static Function>)]) -> String {
    let listed = listed.iter().map(|(subject, functions)| Listed {
        subject,
        functions: functions.iter().map(|function| lesson(function)).collect(),
    });
    written(&listed.collect::<Vec<_>>())
}

fn lesson(function: &Function) -> Lesson<'_> {
    Lesson {
        name: function.name,
        signature: function.signature(),
        summary: function.summary,
        arguments: function
            .parameters
            .iter()
            .enumerate()
            .map(|(place, parameter)| argument(parameter, function.is_by_name(place)))
            .collect(),
        result: shape(function),
        assumes: function.assumes,
        source: function.source,
        example: function.example,
    }
}

fn argument(parameter: &Parameter, by_name: bool) -> Argument<'_> {
    Argument {
        name: parameter.name,
        meaning: parameter.meaning,
        takes: sort(parameter.sort),
        several: parameter.arity == Arity::Many,
        by_name,
        range: parameter.range(),
        default: parameter.default,
    }
}

fn written(data: &impl Serialize) -> String {
    serde_json::to_string_pretty(data).map(|json| json + "\n").unwrap_or_default()
}
