//! The result of a formula, and the line that shows how it came about.

use std::fmt;

use super::Value;
use super::said::{Piece, Said};
use crate::quantity::Unit;
use crate::source::{Span, Spanned};

/// Significant digits of a result that has no short decimal form.
const DIGITS: i32 = 3;

/// What a formula came to, and how.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// The result, in the unit that the formula asks for or that suggests itself.
    pub value: Value,
    /// How it came about.
    pub trace: Trace,
}

/// How a result came about: `caught / took = 1.00 qt / 22 s = 2.58 L/min`.
#[derive(Clone, Debug, PartialEq)]
pub struct Trace {
    formula: String,
    with_values: String,
    result: Value,
    told: Told,
    spoken: Vec<Piece>,
}

/// What a person has to know beside a result: what went into it, and what was assumed.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Told {
    /// What each function was given for which parameter.
    pub(super) passed: Vec<Passed>,
    /// What functions took for granted; each once.
    pub(super) assumptions: Vec<String>,
    /// What functions found to say of these very values; each once.
    pub(super) notes: Vec<String>,
}

/// What a function was given for one of its parameters.
#[derive(Clone, Debug, PartialEq)]
pub struct Passed {
    /// The parameter: "poured".
    pub name: &'static str,
    /// What it is, in a mechanic's words.
    pub meaning: &'static str,
    /// The value, as it was understood: "5.5 qt".
    pub value: String,
    /// Where the argument stands.
    pub span: Span,
}

impl Trace {
    /// How `result` came about, with what stood for which name and what was assumed.
    pub(super) fn new(
        written: &Wording<'_>,
        values: Vec<Spanned<String>>,
        result: Value,
        told: Told,
        spoken: Vec<Piece>,
    ) -> Self {
        Self {
            formula: one_line(&written.with(Vec::new())),
            with_values: one_line(&written.with(values)),
            result,
            told,
            spoken,
        }
    }

    /// The formula, as it was written.
    pub fn formula(&self) -> &str {
        &self.formula
    }

    /// The formula with what was typed in place of the names. A name that was not needed stays.
    pub fn with_values(&self) -> &str {
        &self.with_values
    }

    /// Whether something stands for a name in it.
    pub fn is_worked_out(&self) -> bool {
        self.formula != self.with_values
    }

    /// What the functions in it took for granted, and the defaults they took; each once.
    pub fn assumptions(&self) -> &[String] {
        &self.told.assumptions
    }

    /// What functions found to say of these very values: that a limit was met, that something is overdue.
    pub fn notes(&self) -> &[String] {
        &self.told.notes
    }

    /// What each function was given for which parameter, in the order of the working.
    pub fn passed(&self) -> &[Passed] {
        &self.told.passed
    }

    /// The way in words: what each name stands for with its value, and the result; of what is true or false the parts
    /// that decided it.
    pub fn said(&self, words: &dyn Fn(&str) -> String) -> Said {
        self.said_as(&self.result.to_string(), words)
    }

    /// The same, the result as the caller has written it.
    pub fn said_as(&self, result: &str, words: &dyn Fn(&str) -> String) -> Said {
        let is_truth = matches!(self.result, Value::Truth(_));
        Said::of(&self.spoken, (!is_truth).then_some(result), words)
    }

    /// The whole way on one line, the result in its own unit.
    pub fn show(&self) -> String {
        self.line(&self.result)
    }

    /// The whole way on one line, the result in `unit`; in its own unit where it cannot be given in that one.
    pub fn show_in(&self, unit: &Unit) -> String {
        match &self.result {
            Value::Quantity(quantity) => match quantity.in_unit(unit) {
                Ok(quantity) => self.line(&Value::Quantity(quantity)),
                Err(_) => self.show(),
            },
            Value::Truth(_) | Value::Text(_) | Value::Instead(_) => self.show(),
        }
    }

    /// The whole way on one line, the result as the caller has written it: beside a limit a result needs as many
    /// digits as tell it from the limit.
    pub fn show_as(&self, result: &str) -> String {
        let mut parts = vec![self.formula.as_str()];
        if self.with_values != self.formula {
            parts.push(&self.with_values);
        }
        if parts.last() != Some(&result) {
            parts.push(result);
        }
        parts.join(" = ")
    }

    fn line(&self, result: &Value) -> String {
        let Value::Truth(truth) = result else {
            return self.show_as(&result.to_string());
        };
        // An equals sign beside a comparison would be read as a part of it.
        if self.with_values == self.formula {
            return format!("{} is {truth}", self.formula);
        }
        format!("{}: {} is {truth}", self.formula, self.with_values)
    }
}

impl fmt::Display for Value {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Quantity(quantity) => out.write_str(&quantity.shown_to(DIGITS)),
            Self::Truth(truth) => write!(out, "{truth}"),
            Self::Text(text) | Self::Instead(text) => write!(out, "\"{text}\""),
        }
    }
}

/// The text of a formula and its names, which may be others than those it was written with.
pub(super) struct Wording<'a> {
    pub(super) text: &'a str,
    /// Where `text` begins, counted as the spans are.
    pub(super) start: usize,
    pub(super) names: &'a [Spanned<String>],
}

impl Wording<'_> {
    /// The text on one line with `values` in their places.
    pub(super) fn said(&self, values: Vec<Spanned<String>>) -> String {
        one_line(&self.with(values))
    }

    /// What stands at a place of the text, on one line.
    pub(super) fn part(&self, span: Span) -> String {
        let place = |at: usize| at.saturating_sub(self.start);
        one_line(self.text.get(place(span.start)..place(span.end)).unwrap_or_default())
    }

    /// The text with `values` in their places, and each other name as it is called now.
    fn with(&self, values: Vec<Spanned<String>>) -> String {
        let unreplaced = |name: &&Spanned<String>| !values.iter().any(|value| covers(value.span, name.span));
        let names: Vec<Spanned<String>> = self.names.iter().filter(unreplaced).cloned().collect();
        substituted(self.text, self.start, names.into_iter().chain(values).collect())
    }
}

fn covers(span: Span, other: Span) -> bool {
    span.start <= other.start && other.end <= span.end
}

fn substituted(text: &str, start: usize, mut substitutions: Vec<Spanned<String>>) -> String {
    substitutions.sort_by_key(|substitution| substitution.span);
    let mut shown = String::new();
    let mut at = 0;
    for substitution in substitutions {
        let (from, to) =
            (substitution.span.start.saturating_sub(start), substitution.span.end.saturating_sub(start));
        let rest = text.get(to..).unwrap_or_default();
        shown.push_str(text.get(at..from).unwrap_or_default());
        shown.push_str(&bracketed(&substitution.value, &shown, rest));
        at = to;
    }
    shown.push_str(text.get(at..).unwrap_or_default());
    shown
}

/// A negative value after an operator and a value before `^` need brackets to be read right.
fn bracketed(value: &str, before: &str, after: &str) -> String {
    let negative = value.starts_with(['-', '−']);
    let after_operator = before.trim_end().ends_with(['+', '-', '−', '*', '/', '·', '×', '^']);
    let raised = after.trim_start().starts_with('^') && value.contains(' ');
    if (negative && after_operator) || raised || (negative && after.trim_start().starts_with('^')) {
        return format!("({value})");
    }
    value.to_owned()
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
