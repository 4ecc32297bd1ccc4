//! The unit in which something is typed never changes what comes out.

use bayhand::formula::Value;
use bayhand::quantity::{Num, Quantity, Unit};
use proptest::prelude::*;

use super::world::evaluate;

const PRESSURES: [&str; 4] = ["kPa", "psi", "bar", "inHg"];
const VOLUMES: [&str; 5] = ["L", "qt", "mL", "gal", "in³"];
const TIMES: [&str; 3] = ["s", "min", "h"];
const TEMPERATURES: [&str; 2] = ["°C", "°F"];

/// Formulas over `p`, `q` (pressures), `v` (a volume), `t` (a time), `a`, `b` (temperatures).
const FORMULAS: [&str; 10] = [
    "p + q",
    "0.6 * p - q / 3",
    "v / t",
    "(p - q) * v",
    "p / q",
    "a - b",
    "mean(a, b)",
    "max(p, q)",
    "if p > q then a else b",
    "p <= q or a < b",
];

/// The same amount, written exactly in another unit.
fn written(whole: i64, from: &str, to: &str) -> String {
    let (from, to) = (Unit::parse(from).unwrap(), Unit::parse(to).unwrap());
    let quantity = Quantity::new(Num::from(whole), from).in_unit(&to).unwrap();
    let exact = quantity.number.exact().unwrap();
    format!("({} / {}) * 1 {}", exact.numer(), exact.denom(), to.symbol())
}

fn pick<'a>(units: &'a [&'a str]) -> impl Strategy<Value = &'a str> + use<'a> {
    prop::sample::select(units)
}

/// The formula with each name replaced by its amount in one of the units.
fn filled(formula: &str, amounts: &[(&str, String)]) -> String {
    let words = |text: &str| {
        let found = amounts.iter().find(|(name, _)| *name == text);
        found.map_or_else(|| text.to_owned(), |(_, amount)| format!("({amount})"))
    };
    formula
        .split(' ')
        .map(|piece| {
            let core = piece.trim_matches(['(', ')', ',']);
            let core = core
                .strip_prefix("mean(")
                .or(core.strip_prefix("max("))
                .unwrap_or(core);
            piece.replacen(core, &words(core), 1)
        })
        .collect::<Vec<_>>()
        .join(" ")
}

fn base(formula: &str) -> String {
    match evaluate(formula, "").map(|outcome| outcome.value) {
        Ok(Value::Quantity(quantity)) => quantity.base().to_exact_text(),
        Ok(Value::Truth(truth)) => truth.to_string(),
        other => format!("{other:?}")
            .split('(')
            .next()
            .unwrap_or_default()
            .to_owned(),
    }
}

fn temperature(whole: i64, unit: &str) -> String {
    let celsius = Quantity::new(Num::from(whole), Unit::parse("°C").unwrap());
    let quantity = celsius.in_unit(&Unit::parse(unit).unwrap()).unwrap();
    format!("{} {unit}", quantity.number.to_exact_text())
}

proptest! {
    #[test]
    fn a_result_is_the_same_whatever_the_units(
        formula in pick(&FORMULAS),
        numbers in (1i64..500, 1i64..500, 1i64..500, 1i64..500),
        points in (-8i64..30, -8i64..30),
        units in (pick(&PRESSURES), pick(&PRESSURES), pick(&VOLUMES), pick(&TIMES), pick(&TEMPERATURES), pick(&TEMPERATURES)),
    ) {
        let fill = |units: (&str, &str, &str, &str, &str, &str)| filled(formula, &[
            ("p", written(numbers.0, "kPa", units.0)),
            ("q", written(numbers.1, "kPa", units.1)),
            ("v", written(numbers.2, "mL", units.2)),
            ("t", written(numbers.3, "s", units.3)),
            // Whole multiples of 5 °C are whole degrees Fahrenheit.
            ("a", temperature(points.0 * 5, units.4)),
            ("b", temperature(points.1 * 5, units.5)),
        ]);
        let plain = fill(("kPa", "kPa", "mL", "s", "°C", "°C"));
        let other = fill(units);
        prop_assert_eq!(base(&plain), base(&other), "{} and {}", plain, other);
    }
}
