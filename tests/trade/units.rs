//! The unit in which something is given to a function of the trade never changes its answer.

use std::collections::BTreeMap;

use bayhand::formula::{Formula, Scope, Type, Value, World};
use bayhand::quantity::{Num, Quantity, Unit, rows};
use bayhand::trade::{End, Function, Parameter, SUBJECTS, Sort};
use proptest::prelude::*;
use proptest::sample::Index;

struct Given(BTreeMap<String, Value>);

impl Scope for Given {
    fn type_of(&self, name: &str) -> Option<Type> {
        self.0.get(name).map(|value| match value {
            Value::Quantity(quantity) => Type::of(&quantity.unit),
            Value::Truth(_) => Type::Truth,
            Value::Text(_) | Value::Instead(_) => Type::Text,
        })
    }

    fn names(&self) -> Vec<String> {
        self.0.keys().cloned().collect()
    }
}

impl World for Given {
    fn value_of(&self, name: &str) -> Option<Value> {
        self.0.get(name).cloned()
    }
}

fn functions() -> Vec<&'static Function> {
    SUBJECTS.iter().flat_map(|subject| subject.functions).collect()
}

/// Every unit of the table that measures the same thing in the same way, and exactly: a radian rounds.
fn alike(unit: &Unit) -> Vec<Unit> {
    let units = rows().iter().filter_map(|row| Unit::parse(row.symbol).ok());
    let same = |other: &Unit| {
        other.dimension() == unit.dimension() && other.kind() == unit.kind() && other.factor().is_exact()
    };
    let exact = |other: &Unit| Quantity::new(Num::ONE, other.clone()).base().is_exact();
    units.filter(same).filter(exact).chain([unit.clone()]).collect()
}

/// A value in the parameter's range, thousandths of the way through it.
fn value(parameter: &Parameter, thousandths: u16) -> Value {
    let text = |text: &str| Value::Text(text.to_owned());
    match parameter.sort {
        Sort::Text => text("text"),
        Sort::Choice(choices) => text(choices[usize::from(thousandths) % choices.len()]),
        Sort::Amount(unit) | Sort::Temperature(unit) => {
            let unit = Unit::parse(unit).unwrap();
            Value::Quantity(Quantity::new(number(parameter, thousandths), unit))
        }
        Sort::Number if is_share(parameter) => {
            Value::Quantity(Quantity::from(number(parameter, thousandths)))
        }
        Sort::Date => Value::Quantity(Quantity::new(i64::from(thousandths) + 20_000, Unit::date())),
        // Counts are whole; ratios do with whole numbers too.
        Sort::Number | Sort::Same | Sort::SameAmount | Sort::Other => {
            Value::Quantity(Quantity::from(Num::from(1 + i64::from(thousandths) / 10)))
        }
    }
}

/// A ratio between two close ends, of which no whole number may be one.
fn is_share(parameter: &Parameter) -> bool {
    parameter.upper.and_then(End::value).is_some_and(|high| high <= 1.into())
}

fn number(parameter: &Parameter, thousandths: u16) -> Num {
    let end = |end: Option<End>| end.and_then(End::value);
    let low = end(parameter.lower).unwrap_or(Num::ZERO);
    let high = end(parameter.upper).filter(|high| *high < low + 10_000.into());
    let width = high.unwrap_or(low + 100.into()) - low;
    low + width * Num::ratio(i128::from(thousandths), 1000).unwrap()
}

fn in_another_unit(value: &Value, pick: Index) -> Value {
    match value {
        Value::Quantity(quantity) => {
            let units = alike(&quantity.unit);
            Value::Quantity(quantity.in_unit(pick.get(&units)).unwrap())
        }
        other => other.clone(),
    }
}

/// An answer, a number in base units.
#[derive(Debug)]
enum Answered {
    Number(Num),
    Other(String),
    Refused,
}

impl PartialEq for Answered {
    /// Exact numbers to the last digit; others may lose a bit on their way into the unit in which they are shown.
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Number(Num::Approx(left)), Self::Number(Num::Approx(right))) => {
                (left - right).abs() <= 1e-14 * left.abs()
            }
            (Self::Number(left), Self::Number(right)) => left == right,
            (Self::Other(left), Self::Other(right)) => left == right,
            (Self::Refused, Self::Refused) => true,
            _ => false,
        }
    }
}

fn answer(function: &Function, given: &Given) -> Answered {
    let named = |parameter: &Parameter| format!("{} = {}", parameter.name, given_name(parameter));
    let arguments: Vec<String> = function.parameters.iter().map(named).collect();
    let call = format!("{}({})", function.name, arguments.join(", "));
    let typed = Formula::parse(&call, 0).and_then(|formula| formula.check(given));
    let typed = typed.unwrap_or_else(|mistakes| panic!("{call}: {mistakes:#?}"));
    match typed.evaluate(given) {
        Ok(Value::Quantity(quantity)) => Answered::Number(quantity.base()),
        Ok(other) => Answered::Other(other.to_string()),
        Err(_) => Answered::Refused,
    }
}

fn given_name(parameter: &Parameter) -> String {
    format!("given_{}", parameter.name)
}

fn drawn(function: &Function, thousandths: &[u16]) -> Vec<(String, Value)> {
    let parameters = function.parameters.iter().zip(thousandths);
    parameters
        .map(|(parameter, thousandths)| (given_name(parameter), value(parameter, *thousandths)))
        .collect()
}

/// Two refusals are alike too; so the values that are drawn must lead to answers.
#[test]
fn the_values_reach_most_functions() {
    let draws: Vec<Vec<u16>> = (1..60)
        .map(|draw| (1..17).map(|place| (draw * 137 + place * place * 61) % 999 + 1).collect())
        .collect();
    let functions = functions();
    let reached = |function: &&&Function| {
        draws.iter().any(|draw| {
            answer(function, &Given(drawn(function, draw).into_iter().collect())) != Answered::Refused
        })
    };
    let (reached, not): (Vec<&&Function>, Vec<&&Function>) =
        functions.iter().partition(|function| reached(function));
    assert!(not.len() * 10 <= reached.len(), "never answered: {not:?}");
}

proptest! {
    #![proptest_config(crate::campaign::cases(1000))]

    #[test]
    fn an_answer_is_the_same_whatever_the_units(
        which in any::<Index>(),
        numbers in prop::collection::vec(1u16..1000, 16),
        picks in prop::collection::vec(any::<Index>(), 16),
    ) {
        let function = *which.get(&functions());
        let plain = drawn(function, &numbers);
        let other = plain.iter().zip(&picks);
        let other = other.map(|((name, value), pick)| (name.clone(), in_another_unit(value, *pick))).collect();
        let plain = Given(plain.into_iter().collect());
        prop_assert_eq!(answer(function, &plain), answer(function, &Given(other)), "{}", function.name);
    }
}
