//! What other parts of the crate use: names, spans, codes, traces in a unit.

use bayhand::formula::{CODES, EvalProblem, Formula, Type};
use bayhand::quantity::Unit;
use bayhand::source::Span;

use super::world::{Names, check, evaluate};

const NAMES: &str = "caught = 1.00 qt\ntook = 22 s\n";

#[test]
fn names_are_told_with_their_places_in_the_file() {
    let formula = Formula::parse("max(caught, caught) / took", 100).unwrap();
    let names: Vec<(String, Span)> =
        formula.names().into_iter().map(|name| (name.value, name.span)).collect();
    let expected = [("caught", 104, 110), ("caught", 112, 118), ("took", 122, 126)];
    assert_eq!(names, expected.map(|(name, start, end)| (name.to_owned(), Span::new(start, end))));
    assert_eq!(formula.span(), Span::new(100, 126));
    let typed = formula.check(&Names::read(NAMES, 0)).unwrap();
    assert_eq!(typed.names().len(), 3);
    assert_eq!(typed.text(), "max(caught, caught) / took");
}

#[test]
fn a_diagnostic_points_into_the_file() {
    let mistakes = Formula::parse("caught + ", 100).unwrap_err();
    assert_eq!(mistakes[0].place(), Some(Span::new(107, 108)));
    let mistakes = Formula::parse("caugth", 100).unwrap().check(&Names::read(NAMES, 0)).unwrap_err();
    assert_eq!(
        mistakes[0].fix.as_ref().map(|fix| (fix.span, fix.text.as_str())),
        Some((Span::new(100, 106), "caught"))
    );
}

#[test]
fn a_trace_is_shown_in_the_unit_asked_for() {
    let outcome = evaluate("caught / took", NAMES).unwrap();
    let gallons = Unit::parse("gal/min").unwrap();
    assert_eq!(outcome.trace.show_in(&gallons), "caught / took = 1.00 qt / 22 s = 0.682 gal/min");
    assert_eq!(
        outcome.trace.show_as("0.681818 gal/min"),
        "caught / took = 1.00 qt / 22 s = 0.681818 gal/min"
    );
    let metres = Unit::parse("m").unwrap();
    assert_eq!(
        outcome.trace.show_in(&metres),
        outcome.trace.show(),
        "a unit that does not fit changes nothing"
    );
}

#[test]
fn what_is_not_known_yet_is_told_by_name() {
    let problem = evaluate("caught / took", "caught = 1 qt\ntook = not known, in s\n").unwrap_err();
    assert_eq!(problem, EvalProblem::NotKnownYet("took".to_owned()));
    assert_eq!(problem.to_string(), "`took` is not known yet");
}

#[test]
fn a_value_of_another_sort_than_declared_is_an_error() {
    let typed = check("caught / took", NAMES).unwrap();
    let problem = typed.evaluate(&Names::read("caught = 1 qt\ntook = 22 m\n", 0)).unwrap_err();
    assert_eq!(problem, EvalProblem::WrongValue { name: "took".to_owned() });
}

#[test]
fn types_read_as_a_sentence_needs_them() {
    let shown = |text: &str| Type::of(&Unit::parse(text).unwrap()).to_string();
    assert_eq!(shown("psi"), "a pressure");
    assert_eq!(shown("lbf·ft"), "a torque or energy");
    assert_eq!(shown("mm²"), "an area");
    assert_eq!(shown("°C"), "a temperature");
    assert_eq!(shown("K"), "a temperature difference");
    assert_eq!(shown(""), "a plain number");
}

#[test]
fn codes_are_sorted_and_teach() {
    assert!(CODES.is_sorted_by_key(|code| code.name));
    for code in CODES {
        assert!(
            code.name.chars().all(|letter| letter.is_ascii_lowercase() || letter == '-'),
            "{}",
            code.name
        );
        assert!(!code.summary.is_empty() && !code.summary.ends_with('.'), "{}", code.name);
        assert!(code.teaching.contains("Right: ") || code.name == "value-missing", "{}", code.name);
    }
}

/// A slash, a hyphen or a dot belongs to the unit only where a unit comes out.
#[test]
fn a_unit_ends_where_no_unit_comes_out_any_more() {
    let holds = [
        "1 qt/took == 1 qt / took",
        "22 s-took == 20 s",
        "2 m/2 == 1 m",
        "2 m-1 m == 1 m",
        "5 Δ°C + 5 K == 10 K",
        "2 m/s^2 * 1 s^2 == 2 m",
        "2 kg·m/s² == 2 N",
        "35 ft-lb == 35 lbf·ft",
        "3/16\" == 0.1875 in",
        "5½ qt == 5.5 qt",
        "1e3 m == 1 km",
        "25 % == 0.25",
        "2 in * 3 in == 6 in²",
    ];
    for formula in holds {
        let outcome = evaluate(formula, "took = 2 s\n").unwrap();
        assert!(matches!(outcome.value, bayhand::formula::Value::Truth(true)), "{formula}");
    }
}
