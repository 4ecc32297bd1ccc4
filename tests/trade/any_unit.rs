//! The unit in which an amount is given never changes what a function answers: every function, every parameter.

use bayhand::quantity::{Kind, Num, Quantity, Unit, rows};
use bayhand::trade::{Arity, Function, Parameter, SUBJECTS, Sort};
use proptest::prelude::*;
use proptest::sample::Index;

use super::case::value;

/// An amount, as a whole number of thousandths of the parameter's unit, and another unit for it.
#[derive(Clone, Debug)]
struct Drawn {
    thousandths: i64,
    unit: Index,
}

fn drawn() -> impl Strategy<Value = Drawn> {
    (1..200_000_i64, any::<Index>()).prop_map(|(thousandths, unit)| Drawn { thousandths, unit })
}

/// Units of the table that measure the same thing, exactly.
fn others(unit: &Unit) -> Vec<Unit> {
    // A unit in a formula has no space in it.
    let symbols = rows().iter().filter(|row| !row.symbol.contains(' '));
    let units = symbols.filter_map(|row| Unit::parse(row.symbol).ok());
    units
        .filter(|other| other.dimension() == unit.dimension() && other.kind() == Kind::Difference)
        .filter(|other| Quantity::new(Num::ONE, other.clone()).base().is_exact())
        .collect()
}

/// The amount as a formula: whole numbers and a unit, so that no digit is lost.
fn written(amount: &Quantity) -> String {
    let exact = amount.number.exact().unwrap();
    format!("({} {} / {})", exact.numer(), amount.unit.symbol(), exact.denom())
}

/// An argument twice: in the parameter's own unit and in another one.
fn argument(parameter: &Parameter, drawn: &Drawn) -> (String, String) {
    let number = Num::ratio(drawn.thousandths.into(), 1000).unwrap();
    match parameter.sort {
        Sort::Amount(unit) => in_two_units(number, unit, drawn),
        Sort::Same | Sort::SameAmount => in_two_units(number, "kg", drawn),
        Sort::Number => twice((drawn.thousandths % 40 + 1).to_string()),
        Sort::Temperature(_) => twice(format!("{} °C", drawn.thousandths % 60 + 20)),
        Sort::Choice(choices) => twice(format!("'{}'", choices[drawn.unit.index(choices.len())])),
        Sort::Text => twice("'text'".to_owned()),
    }
}

fn twice(text: String) -> (String, String) {
    (text.clone(), text)
}

fn in_two_units(number: Num, unit: &str, drawn: &Drawn) -> (String, String) {
    let amount = Quantity::new(number, Unit::parse(unit).unwrap());
    let others = others(&amount.unit);
    let other = if others.is_empty() {
        amount.clone()
    } else {
        amount.in_unit(&others[drawn.unit.index(others.len())]).unwrap()
    };
    (written(&amount), written(&other))
}

/// The same call twice, in the units of the parameters and in others.
fn calls(function: &Function, drawn: &[Drawn]) -> (String, String) {
    let mut supply = drawn.iter().cycle();
    let mut both = (Vec::new(), Vec::new());
    for parameter in function.parameters {
        let count = if parameter.arity == Arity::Many { 3 } else { 1 };
        for drawn in supply.by_ref().take(count) {
            let (own, other) = argument(parameter, drawn);
            both.0.push(own);
            both.1.push(other);
        }
    }
    let call = |arguments: Vec<String>| format!("{}({})", function.name, arguments.join(", "));
    (call(both.0), call(both.1))
}

fn agree(own: &str, other: &str) -> Result<(), TestCaseError> {
    use bayhand::formula::Value;
    match (value(own), value(other)) {
        (Ok(Value::Quantity(first)), Ok(Value::Quantity(second))) => {
            let (first, second) = (first.base().to_f64(), second.base().to_f64());
            let allowed = 1e-9 * first.abs().max(second.abs()).max(1e-9);
            prop_assert!(
                (first - second).abs() <= allowed,
                "{own}: {first}\n{other}: {second}"
            );
        }
        (Ok(first), Ok(second)) => prop_assert_eq!(first, second, "{}\n{}", own, other),
        (Err(_), Err(_)) => {}
        (first, second) => prop_assert!(false, "{own}: {first:?}\n{other}: {second:?}"),
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn no_unit_changes_an_answer(drawn in prop::collection::vec(drawn(), 9)) {
        for function in SUBJECTS.iter().flat_map(|subject| subject.functions) {
            let (own, other) = calls(function, &drawn);
            agree(&own, &other)?;
        }
    }
}
