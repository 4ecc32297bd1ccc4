//! Functions over the passes of a repeat, against values from elsewhere and against plain computations.

use bayhand::formula::{EvalProblem, Formula, Outcome, Scope, Type, Value, World};
use bayhand::quantity::{Dimension, Num, Quantity, Unit, parse_literal};
use proptest::prelude::*;

use super::world::{Names, check, evaluate};

/// The values of `x` in the passes of a repeat; the newest is the present one.
struct Passes(Vec<Quantity>);

impl Passes {
    fn of(values: &[&str]) -> Self {
        Self(values.iter().map(|value| parse_literal(value).unwrap()).collect())
    }

    fn evaluate(&self, formula: &str) -> Result<Outcome, EvalProblem> {
        let typed = Formula::parse(formula, 0).and_then(|formula| formula.check(self));
        typed.unwrap_or_else(|mistakes| panic!("`{formula}` is right: {mistakes:#?}")).explained(self)
    }

    /// The result in base units.
    fn result(&self, formula: &str) -> Num {
        match self.evaluate(formula) {
            Ok(Outcome { value: Value::Quantity(quantity), .. }) => quantity.base(),
            other => panic!("`{formula}` gives {other:?}"),
        }
    }

    fn hold(&self, formula: &str) {
        let outcome = self.evaluate(formula).unwrap();
        assert_eq!(outcome.value, Value::Truth(true), "{}", outcome.trace.show());
    }
}

impl Scope for Passes {
    fn type_of(&self, name: &str) -> Option<Type> {
        let unit = self.0.first().map_or(Unit::one(), |first| first.unit.clone());
        (name == "x").then(|| Type::of(&unit))
    }

    fn names(&self) -> Vec<String> {
        vec!["x".to_owned()]
    }
}

impl World for Passes {
    fn value_of(&self, name: &str) -> Option<Value> {
        self.passes_of(name, 1).pop()
    }

    fn passes_of(&self, name: &str, most: usize) -> Vec<Value> {
        let values = if name == "x" { self.0.as_slice() } else { &[] };
        values[values.len().saturating_sub(most)..].iter().cloned().map(Value::Quantity).collect()
    }
}

/// NIST Statistical Reference Datasets, univariate summary statistics, data sets `NumAcc1` to `NumAcc4` and their
/// certified means, from memory. In floating point they lose digits; here they are exact.
#[test]
fn certified_means_of_nist_are_met_exactly() {
    Passes::of(&["10000001", "10000003", "10000002"]).hold("mean(x) == 10000002 and spread(x) == 2");
    for (first, low, high) in [
        ("1.2", "1.1", "1.3"),
        ("1000000.2", "1000000.1", "1000000.3"),
        ("10000000.2", "10000000.1", "10000000.3"),
    ] {
        let alternating = [low, high].into_iter().cycle().take(1000);
        let values: Vec<&str> = [first].into_iter().chain(alternating).collect();
        Passes::of(&values).hold(&format!("mean(x) == {first} and count(x) == 1001 and spread(x) == 0.2"));
    }
}

/// Examples in the documentation of `mean` in Python's `statistics` and of `ptp` (peak to peak) in `numpy`, from
/// memory.
#[test]
fn worked_examples_of_means_and_spreads() {
    Passes::of(&["1", "2", "3", "4", "4"]).hold("mean(x) == 2.8");
    Passes::of(&["-1.0", "2.5", "3.25", "5.75"]).hold("mean(x) == 2.625");
    Passes::of(&["3/7 in", "1/21 in", "5/3 in", "1/3 in"]).hold("mean(x) == 13/21 in");
    Passes::of(&["4", "9", "2", "10"]).hold("spread(x) == 8");
    Passes::of(&["6", "9", "7", "12"]).hold("spread(x) == 6");
}

/// Water freezes at 0 °C, 32 °F, and boils at 100 °C, 212 °F (common knowledge of the two scales).
#[test]
fn temperatures_have_a_mean_and_a_difference() {
    let water = Passes::of(&["0 °C", "212 °F"]);
    water.hold("mean(x) == 50 °C and max(x) == 100 °C and min(x) == 32 °F and before(x) == 0 °C");
    water.hold("spread(x) == 100 K and spread(x) == 180 Δ°F");
    let gives = |formula| check(formula, "pan = 70 °C | 72 °C\n").ok().map(|typed| typed.result_type());
    for formula in ["mean(pan)", "min(pan, last = 2)", "first(pan)", "last(pan)", "before(pan)"] {
        assert_eq!(gives(formula), Some(Type::TEMPERATURE), "{formula}");
    }
    assert_eq!(gives("spread(pan)"), Some(Type::amount(Dimension::TEMPERATURE)));
    assert_eq!(gives("spread(pan, 20 °C)"), Some(Type::amount(Dimension::TEMPERATURE)));
    assert_eq!(gives("count(pan)"), Some(Type::NUMBER));
    assert_eq!((gives("sum(pan)"), gives("sum(pan, 20 °C)")), (None, None));
}

#[test]
fn without_a_pass_only_the_count_is_known() {
    let none = Passes(Vec::new());
    none.hold("count(x) == 0");
    for formula in ["first(x)", "last(x)", "sum(x)", "mean(x)", "min(x)", "max(x)", "spread(x)"] {
        assert_eq!(none.evaluate(formula), Err(EvalProblem::NotKnownYet("x".to_owned())), "{formula}");
    }
    let too_few = |passes, needed| Err(EvalProblem::TooFewPasses { name: "x".to_owned(), passes, needed });
    assert_eq!(none.evaluate("before(x)"), too_few(0, 2));
    assert_eq!(none.evaluate("count(x, last = 1)"), too_few(0, 1));
    let one = Passes::of(&["4"]);
    assert_eq!(one.evaluate("before(x)"), too_few(1, 2));
    one.hold("spread(x) == 0 and first(x) == last(x) and mean(x) == 4 and sum(x) == 4 and count(x) == 1");
}

#[test]
fn too_few_passes_are_told_with_their_number() {
    let told = |passes| {
        let problem = EvalProblem::TooFewPasses { name: "engage".to_owned(), passes, needed: 3 };
        problem.to_string()
    };
    assert_eq!(told(0), "`engage` has a value in no pass so far, and 3 are needed");
    assert_eq!(told(1), "`engage` has a value in 1 pass so far, and 3 are needed");
    assert_eq!(told(2), "`engage` has a value in 2 passes so far, and 3 are needed");
}

/// What compares a pass with the one before has a result in the first pass too, and is counted there.
#[test]
fn only_the_outcome_that_is_chosen_looks_at_passes() {
    let formula = "if pass > 1 then abs(x - before(x)) else 0 K";
    let in_pass = |names: &str| evaluate(formula, names).map(|outcome| outcome.value.to_string());
    assert_eq!(in_pass("pass = 1\nx = 50 °C\n"), Ok("0 K".to_owned()));
    assert_eq!(in_pass("pass = 2\nx = 50 °C | 48.5 °C\n"), Ok("1.5 Δ°C".to_owned()));
    assert!(in_pass("pass = 2\nx = 50 °C\n").is_err(), "the other outcome is worked out where it is chosen");
    let enough = "count(x) >= 3 and spread(x, last = 3) < 1 K";
    assert_eq!(evaluate(enough, "x = 50 °C\n").map(|outcome| outcome.value), Ok(Value::Truth(false)));
}

#[test]
fn texts_and_truths_have_passes_too() {
    let names = "look = \"milky\" of clear, milky | \"clear\" of clear, milky\nclean = false | true | true\n";
    for formula in [
        "first(look) == 'milky' and before(look) == 'milky' and last(look) == 'clear' and count(look) == 2",
        "not first(clean) and before(clean) and last(clean) and count(clean) == 3",
    ] {
        assert_eq!(
            evaluate(formula, names).map(|outcome| outcome.value),
            Ok(Value::Truth(true)),
            "{formula}"
        );
    }
    assert!(check("max(clean)", names).is_err());
}

#[test]
fn the_values_of_a_single_name_and_of_several_are_told_apart() {
    let names = "left = 1 L | 3 L\nright = 5 L\n";
    for formula in [
        "mean(left) == 2 L and mean(values = left) == 2 L and mean(left, right) == 4 L",
        "sum(left) == 4 L and sum(left, right) == 8 L and spread(left, right) == 2 L",
        "max(right) == 5 L and max(left + 0 L, right) == 5 L",
        "max(left, last = 1) == 3 L and min(left, last = wanted - 1) == 1 L",
    ] {
        let names = format!("{names}wanted = 3\n");
        assert_eq!(
            evaluate(formula, &names).map(|outcome| outcome.value),
            Ok(Value::Truth(true)),
            "{formula}"
        );
    }
}

/// The pass under way counts where it has a value; until then the newest is that of the pass before.
#[test]
fn a_pass_without_a_value_yet_does_not_count() {
    let names = "x = 1 s | 2 s | not known\n";
    let outcome = evaluate("last(x) + before(x) + count(x) * 10 s", names).unwrap();
    assert_eq!(
        outcome.trace.show(),
        "last(x) + before(x) + count(x) * 10 s = 2 s + 1 s + count(1 s, 2 s) * 10 s = 23 s"
    );
    assert_eq!(evaluate("x + before(x)", names), Err(EvalProblem::NotKnownYet("x".to_owned())));
}

#[test]
fn a_pass_of_another_sort_than_declared_is_an_error() {
    let typed = check("mean(x)", "x = 1 s\n").unwrap();
    let problem = typed.evaluate(&Names::read("x = 1 s | 2 m | 3 s\n", 0)).unwrap_err();
    assert_eq!(problem, EvalProblem::WrongValue { name: "x".to_owned() });
}

#[test]
fn a_renamed_formula_looks_at_the_passes_of_the_new_name() {
    let typed = check("mean(x, last = n) - before(x)", "x = 1 s | 2 s\nn = 2\n").unwrap();
    let typed = typed.rename(&|name| format!("other_{name}"));
    let world = Names::read("other_x = 3 s | 5 s\nother_n = 2\nx = 9 s\n", 0);
    let shown = "mean(other_x, last = other_n) - before(other_x) = mean(3 s, 5 s, last = 2) - 3 s = 1 s";
    assert_eq!(typed.explained(&world).unwrap().trace.show(), shown);
    let names: Vec<&str> = typed.names().iter().map(|name| name.value.as_str()).collect();
    assert_eq!(names, ["other_x", "other_n", "other_x"]);
}

#[test]
fn brackets_keep_a_negative_value_of_a_pass_readable() {
    let outcome = evaluate("x - before(x)", "x = -2 mm | -5 mm\n").unwrap();
    assert_eq!(outcome.trace.show(), "x - before(x) = -5 mm - (-2 mm) = -3 mm");
}

/// Thousandths, so that the plain computation is one of whole numbers.
fn thousandths(count: i64) -> Num {
    Num::ratio(i128::from(count), 1000).unwrap()
}

proptest! {
    #[test]
    fn whole_numbers_give_the_same(values in prop::collection::vec(-1_000_000i64..1_000_000, 2..60), newest in 1usize..60) {
        let unit = Unit::parse("m").unwrap();
        let passes = Passes(values.iter().map(|value| Quantity::new(thousandths(*value), unit.clone())).collect());
        let expected = |values: &[i64]| {
            let (sum, count) = (values.iter().sum::<i64>(), i64::try_from(values.len()).unwrap());
            let (low, high) = (*values.iter().min().unwrap(), *values.iter().max().unwrap());
            let mean = Num::ratio(i128::from(sum), i128::from(count) * 1000).unwrap();
            [thousandths(sum), mean, thousandths(low), thousandths(high), thousandths(high - low), Num::from(count)]
        };
        let given = |rest: &str| {
            ["sum", "mean", "min", "max", "spread", "count"].map(|name| passes.result(&format!("{name}(x{rest})")))
        };
        prop_assert_eq!(given(""), expected(&values));
        let picked = ["first", "before", "last"].map(|name| passes.result(&format!("{name}(x)")));
        let ends = [values[0], values[values.len() - 2], values[values.len() - 1]];
        prop_assert_eq!(picked, ends.map(thousandths));
        let newest = newest.min(values.len());
        prop_assert_eq!(given(&format!(", last = {newest}")), expected(&values[values.len() - newest..]));
    }

    /// One name over its passes gives what its values, written out, give.
    #[test]
    fn one_name_stands_for_its_values_written_out(values in prop::collection::vec((-400i32..4000, prop::sample::select(&["°C", "°F"])), 1..12)) {
        let written: Vec<String> = values.iter().map(|(tenths, unit)| format!("{} {unit}", f64::from(*tenths) / 10.0)).collect();
        let passes = Passes::of(&written.iter().map(String::as_str).collect::<Vec<_>>());
        for name in ["mean", "min", "max", "spread"] {
            let written_out = passes.result(&format!("{name}({}, x)", written[..written.len() - 1].join(", ")).replace("(, ", "("));
            prop_assert_eq!(passes.result(&format!("{name}(x)")), written_out, "{}", name);
        }
    }
}
