//! The unit in which something is typed never changes what comes out.

use std::collections::BTreeMap;

use bayhand::formula::{Formula, Scope, Type, Value, World};
use bayhand::quantity::{Num, Quantity, Unit};
use proptest::prelude::*;

const PRESSURES: [&str; 4] = ["kPa", "psi", "bar", "inHg"];
const VOLUMES: [&str; 5] = ["L", "qt", "mL", "gal", "in³"];
const TIMES: [&str; 3] = ["s", "min", "h"];
const TEMPERATURES: [&str; 2] = ["°C", "°F"];

/// Formulas over `p`, `q` (pressures), `v` (a volume), `t` (a time), `a`, `b` (temperatures).
const FORMULAS: [&str; 12] = [
    "p + q",
    "0.6 * p - q / 3",
    "v / t",
    "(p - q) * v",
    "p / q",
    "a - b",
    "mean(a, b)",
    "max(p, q)",
    "spread(a, b)",
    "sum(p, q)",
    "if p > q then a else b",
    "p <= q or a < b",
];

struct Amounts(BTreeMap<&'static str, Quantity>);

impl Scope for Amounts {
    fn type_of(&self, name: &str) -> Option<Type> {
        self.0.get(name).map(|quantity| Type::of(&quantity.unit))
    }

    fn names(&self) -> Vec<String> {
        self.0.keys().map(|&name| name.to_owned()).collect()
    }
}

impl World for Amounts {
    fn value_of(&self, name: &str) -> Option<Value> {
        self.0.get(name).cloned().map(Value::Quantity)
    }
}

fn pick(units: &'static [&'static str]) -> impl Strategy<Value = Unit> {
    prop::sample::select(units).prop_map(|symbol| Unit::parse(symbol).unwrap())
}

/// The result in base units, so that results in different units can be compared.
fn result(formula: &str, amounts: &Amounts) -> String {
    let typed = Formula::parse(formula, 0).unwrap().check(amounts).unwrap();
    match typed.evaluate(amounts).unwrap() {
        Value::Quantity(quantity) => quantity.base().to_exact_text(),
        other => other.to_string(),
    }
}

proptest! {
    #[test]
    fn a_result_is_the_same_whatever_the_units(
        formula in prop::sample::select(&FORMULAS),
        numbers in prop::array::uniform6(1i64..500),
        p in pick(&PRESSURES), q in pick(&PRESSURES), v in pick(&VOLUMES), t in pick(&TIMES),
        a in pick(&TEMPERATURES), b in pick(&TEMPERATURES),
    ) {
        let typed = ["kPa", "kPa", "mL", "s", "°C", "°F"].map(|symbol| Unit::parse(symbol).unwrap());
        let typed = numbers.iter().zip(typed).map(|(number, unit)| Quantity::new(Num::from(*number), unit));
        let names = ["p", "q", "v", "t", "a", "b"];
        let plain: BTreeMap<_, _> = names.into_iter().zip(typed).collect();
        let other = plain.iter().zip([a, b, p, q, t, v]);
        let other = other.map(|((name, quantity), unit)| (*name, quantity.in_unit(&unit).unwrap())).collect();
        prop_assert_eq!(result(formula, &Amounts(plain)), result(formula, &Amounts(other)), "{}", formula);
    }
}
