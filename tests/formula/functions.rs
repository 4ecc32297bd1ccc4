//! The table of functions, and how calls are read.

use bayhand::formula::functions::{find, functions, meant, subjects};
use bayhand::formula::{EvalProblem, Formula, NoNames};
use bayhand::quantity::{Kind, Num, Unit};
use bayhand::trade::{Arity, Function, Parameter, Shape, Sort};

use super::world::{check, evaluate, is_true, result};

fn is_name(name: &str) -> bool {
    let mut letters = name.chars();
    letters.next().is_some_and(|first| first.is_ascii_lowercase())
        && letters.all(|letter| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '_')
}

#[test]
fn every_row_is_whole() {
    let mut names: Vec<&str> = functions().map(|function| function.name).collect();
    names.sort_unstable();
    assert!(names.windows(2).all(|pair| pair[0] != pair[1]), "each name once");
    for function in functions() {
        let name = function.name;
        assert!(is_name(name), "{name}");
        assert!(!function.summary.is_empty() && !function.summary.ends_with('.'), "{name}: summary");
        assert!(!function.source.is_empty(), "{name}: source");
        assert_result(function);
        assert!(!function.parameters.is_empty(), "{name}: a function has parameters");
        assert!(function.parameters.is_sorted_by_key(|parameter| parameter.default.is_some()), "{name}");
        let several = function.parameters.iter().filter(|parameter| parameter.arity == Arity::Many);
        assert!(
            several.clone().all(|parameter| parameter.default.is_none()),
            "{name}: several have no default"
        );
        function.parameters.iter().for_each(|parameter| assert_parameter(name, parameter));
    }
}

fn assert_result(function: &Function) {
    let kind = |unit| Unit::parse(unit).unwrap_or_else(|_| panic!("{}: {unit}", function.name)).kind();
    match function.result {
        Shape::Amount(unit) => assert_eq!(kind(unit), Kind::Difference, "{}", function.name),
        Shape::Temperature(unit) => assert_eq!(kind(unit), Kind::Point, "{}", function.name),
        Shape::Number
        | Shape::Date
        | Shape::Same
        | Shape::Other
        | Shape::Difference
        | Shape::Root
        | Shape::Truth
        | Shape::Text => {}
    }
}

fn assert_parameter(function: &str, parameter: &Parameter) {
    let place = format!("{} of {function}", parameter.name);
    assert!(is_name(parameter.name) && !parameter.meaning.is_empty(), "{place}");
    let ends = parameter.lower.into_iter().chain(parameter.upper);
    assert!(ends.clone().all(|end| end.value().is_some()), "{place}: its range is of numbers");
    match parameter.sort {
        Sort::Amount(unit) => {
            assert_eq!(Unit::parse(unit).map(|unit| unit.kind()), Ok(Kind::Difference), "{place}");
        }
        Sort::Temperature(unit) => {
            assert_eq!(Unit::parse(unit).map(|unit| unit.kind()), Ok(Kind::Point), "{place}");
        }
        Sort::Choice(choices) => {
            assert!(
                parameter.default.is_none_or(|default| choices.contains(&default)),
                "{place}: its default"
            );
        }
        Sort::Same | Sort::SameAmount | Sort::Other => {
            let zero = |number: &str| Num::parse_decimal(number) == Some(Num::ZERO);
            assert!(ends.clone().all(|end| zero(end.number)), "{place}: without a unit only zero is an end");
            assert!(parameter.default.is_none(), "{place}: a default would have one unit only");
        }
        Sort::Number | Sort::Date | Sort::Text => {}
    }
}

/// Each row's example is a call of that row which works; it is what a person copies.
#[test]
fn every_example_works() {
    for function in functions() {
        assert!(function.example.contains(&format!("{}(", function.name)), "{}", function.name);
        let typed = Formula::parse(function.example, 0).and_then(|formula| formula.check(&NoNames));
        let outcome = typed
            .unwrap_or_else(|mistakes| panic!("{}: {mistakes:#?}", function.example))
            .explained(&NoNames);
        assert!(outcome.is_ok(), "{}: {outcome:?}", function.example);
    }
}

/// Each default is read as an argument would be: the call with it written out gives the same.
#[test]
fn every_default_is_of_its_parameters_sort() {
    for function in functions() {
        for parameter in function.parameters {
            let Some(default) = parameter.default else {
                continue;
            };
            let quoted = format!("'{default}'");
            let text = matches!(parameter.sort, Sort::Text | Sort::Choice(_));
            let written = if text { quoted.as_str() } else { default };
            let others = function.parameters.iter().filter(|other| other.default.is_none());
            let named = |other: &Parameter| format!("{} = {}", other.name, sample(other));
            let front: Vec<String> = others.map(named).collect();
            let call = format!("{}({}, {} = {written})", function.name, front.join(", "), parameter.name);
            assert!(check(&call, "").is_ok(), "{call}");
        }
    }
}

fn sample(parameter: &Parameter) -> String {
    match parameter.sort {
        Sort::Amount(unit) | Sort::Temperature(unit) => format!("1 {unit}"),
        Sort::Choice(choices) => format!("'{}'", choices[0]),
        Sort::Date => "2026-11-01".to_owned(),
        Sort::Text => "'text'".to_owned(),
        Sort::Number | Sort::Same | Sort::SameAmount | Sort::Other => "1".to_owned(),
    }
}

/// No two places that measure the same thing can be turned round unnoticed: the later one needs its name, unless both
/// mean the same, and then the answer is the same.
#[test]
fn what_is_easily_turned_round_needs_its_name() {
    let mut held = 0;
    for function in functions() {
        for (place, parameter) in function.parameters.iter().enumerate() {
            let alike = function.parameters[..place].iter().any(|before| before.measures_like(parameter));
            if !alike {
                continue;
            }
            let front = function.parameters[..=place].iter().map(sample).collect::<Vec<_>>().join(", ");
            let call = format!("{}({front})", function.name);
            let is_refused = check(&call, "").is_err_and(|mistakes| {
                mistakes.iter().any(|mistake| mistake.code.name == "argument-unnamed")
            });
            assert!(is_refused || parameter.either_way, "{call}");
            held += 1;
        }
    }
    assert!(held > 100, "{held}");
}

/// What may be turned round gives the same answer both ways.
#[test]
fn what_means_the_same_may_be_turned_round() {
    let mut held = 0;
    for function in functions() {
        for (place, parameter) in function.parameters.iter().enumerate().filter(|(_, one)| one.either_way) {
            let before = function.parameters[place - 1].name;
            for (one, other) in [("2", "7"), ("0.5", "31"), ("44", "44")] {
                let unit = parameter.sort.unit().unwrap_or_default();
                let call = |first, second| {
                    let name = function.name;
                    result(&format!(
                        "{name}({before} = {first} {unit}, {} = {second} {unit})",
                        parameter.name
                    ))
                };
                let (there, back) = (call(one, other).base().to_f64(), call(other, one).base().to_f64());
                assert!((there - back).abs() <= 1e-12 * there.abs(), "{}: {there} and {back}", function.name);
                held += 1;
            }
        }
    }
    assert!(held >= 9, "{held}");
}

#[test]
fn functions_are_found_by_name_and_nearly() {
    assert_eq!(find("mean").map(|function| function.name), Some("mean"));
    assert!(find("Mean").is_none());
    assert_eq!(meant("adaptor_setting").map(|function| function.name), Some("adapter_setting"));
    assert!(meant("gearbox").is_none());
    assert_eq!(subjects().next().map(|subject| subject.name), Some("arithmetic"));
}

#[test]
fn arguments_in_order_or_by_name_are_the_same() {
    assert!(is_true("round(7 L, to = 2 L) == round(to = 2 L, x = 7 L)"));
    assert!(is_true(
        "old_fluid_left(4 L, holds = 7 L, times = 2) == old_fluid_left(times = 2, drained = 4 L, holds = 7 L)"
    ));
    assert!(is_true("old_fluid_left(4 L, holds = 7 L) == old_fluid_left(4 L, holds = 7 L, times = 1)"));
}

#[test]
fn arithmetic_functions() {
    assert!(is_true("mean(1 L, 2 L, 6 L) == 3 L and min(3, 1, 2) == 1 and max(3 psi, 4 psi) == 4 psi"));
    assert!(is_true("spread(1.2 s, 1.4 s, 1.3 s) == 0.2 s and sum(2.1 L, 1.9 L, 500 mL) == 4.5 L"));
    assert!(is_true("abs(3 mm - 5 mm) == 2 mm and sqrt(2.25 cm²) == 1.5 cm"));
    assert!(is_true(
        "round(2.5 L, to = 1 L) == 3 L and round(-2.5 L, to = 1 L) == -3 L and round(2.49 L, to = 1 L) == 2 L"
    ));
    assert!(is_true(
        "round_up(7.2 L, to = 1 L) == 8 L and round_up(7 L, to = 1 L) == 7 L and round_up(-7.2, to = 1) == -7"
    ));
    assert!(is_true("round_down(7.9 L, to = 1 L) == 7 L and round_down(-7.2, to = 1) == -8"));
}

#[test]
fn what_a_function_takes_for_granted_is_told_once() {
    let formula = "old_fluid_left(4 L, holds = 7 L) + old_fluid_left(4 L, holds = 7 L, times = 2)";
    let outcome = evaluate(formula, "").unwrap();
    let expected = [
        "`times` of `old_fluid_left` is 1, since it was not given",
        "new and old fluid mix fully between two drains",
    ];
    assert_eq!(outcome.trace.assumptions(), expected);
}

#[test]
fn a_value_out_of_range_is_told_with_the_range_and_its_place() {
    let names = "drained = 9 L\nholds = 0 L\n";
    let Err(EvalProblem::OutOfRange { message, given, span }) =
        evaluate("old_fluid_left(drained, holds = holds)", names)
    else {
        panic!("nothing is left of nothing")
    };
    assert_eq!(message, "`holds` of `old_fluid_left` must be more than 0 L");
    assert_eq!((given.as_str(), span.start, span.end), ("this is 0 L", 32, 37));
}
