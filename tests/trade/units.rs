//! The unit in which something is given to a function of the trade never changes its answer.

use std::collections::BTreeMap;

use bayhand::formula::{Formula, Scope, Type, Value, World};
use bayhand::quantity::{Num, Quantity, Unit, rows};
use bayhand::trade::{Arity, End, Function, Parameter, SUBJECTS, Sort};
use proptest::prelude::*;
use proptest::sample::Index;

struct Given(BTreeMap<String, Value>);

impl Scope for Given {
    fn type_of(&self, name: &str) -> Option<Type> {
        self.0.get(name).map(|value| match value {
            Value::Quantity(quantity) => Type::of(&quantity.unit),
            Value::Truth(_) => Type::Truth,
            Value::Text(_) => Type::Text,
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
    let same = |other: &Unit| other.dimension() == unit.dimension() && other.kind() == unit.kind();
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
        // Counts are whole; ratios do with whole numbers too.
        Sort::Number | Sort::Same | Sort::SameAmount => {
            Value::Quantity(Quantity::from(Num::from(1 + i64::from(thousandths) / 100)))
        }
    }
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

/// The answer, or that there is none.
fn answer(function: &Function, given: &Given) -> Option<Value> {
    let names = given.names();
    let call = format!(
        "{}({})",
        function.name,
        function
            .parameters
            .iter()
            .map(|parameter| {
                let by_name = parameter.arity == Arity::One;
                if by_name {
                    format!("{0} = given_{0}", parameter.name)
                } else {
                    format!("given_{}", parameter.name)
                }
            })
            .collect::<Vec<_>>()
            .join(", ")
    );
    let typed = Formula::parse(&call, 0).and_then(|formula| formula.check(given));
    let typed = typed.unwrap_or_else(|mistakes| panic!("{call} with {names:?}: {mistakes:#?}"));
    Some(typed.evaluate(given).ok()?.value)
}

/// Exact answers are the same to the digit; of the others the last digits depend on the unit they are told in.
fn agree(first: Option<&Value>, second: Option<&Value>) -> bool {
    let (Some(Value::Quantity(first)), Some(Value::Quantity(second))) = (first, second) else {
        return first == second;
    };
    let (first, second) = (first.base(), second.base());
    let off = (first - second).abs().to_f64();
    first == second || !first.is_exact() && off <= 1e-12 * first.abs().to_f64()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn an_answer_is_the_same_whatever_the_units(
        which in any::<Index>(),
        numbers in prop::collection::vec(1u16..1000, 16),
        picks in prop::collection::vec(any::<Index>(), 16),
    ) {
        let function = *which.get(&functions());
        // Only the first parameters are given in order when the last takes many, so names would not do.
        prop_assume!(function.parameters.iter().all(|parameter| parameter.arity == Arity::One));
        let named = function.parameters.iter().zip(&numbers);
        let plain: Vec<(String, Value)> = named
            .map(|(parameter, number)| (format!("given_{}", parameter.name), value(parameter, *number)))
            .collect();
        let other = plain.iter().zip(&picks);
        let other = other.map(|((name, value), pick)| (name.clone(), in_another_unit(value, *pick))).collect();
        let plain = Given(plain.into_iter().collect());
        let (first, second) = (answer(function, &plain), answer(function, &Given(other)));
        prop_assert!(agree(first.as_ref(), second.as_ref()), "{}: {first:?}, {second:?}", function.name);
    }
}
