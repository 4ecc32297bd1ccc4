//! A formula with other names: a procedure that is done inside another.

use bayhand::formula::{EvalProblem, Typed};
use bayhand::source::Span;

use super::world::{Names, check};

const INSIDE: &str = "caught = 1.00 qt\ntook = 22 s\nlook = \"clear\"\n";
const OUTSIDE: &str = "flow_caught = 2.00 qt\nflow_took = 22 s\nflow_look = \"clear\"\ncaught = 9 qt\n";

fn inside(formula: &str) -> Typed {
    check(formula, INSIDE).unwrap().rename(&|name| format!("flow_{name}"))
}

#[test]
fn the_values_of_the_new_names_are_used_and_shown() {
    let formula = inside("caught / took in L/min");
    let outcome = formula.explained(&Names::read(OUTSIDE, 0)).unwrap();
    assert_eq!(outcome.trace.show(), "flow_caught / flow_took = 2.00 qt / 22 s = 5.16 L/min");
}

#[test]
fn names_are_renamed_in_every_part() {
    let text =
        "if not (look == 'took') and took > 1 s then -max(caught, 1 L) * 2 else round(caught, to = 1 L)";
    let formula = inside(text);
    let names: Vec<&str> = formula.names().iter().map(|name| name.value.as_str()).collect();
    assert_eq!(names, ["flow_look", "flow_took", "flow_caught", "flow_caught"]);
    let outcome = formula.explained(&Names::read(OUTSIDE, 0)).unwrap();
    let shown = "if not (\"clear\" == 'took') and 22 s > 1 s then -max(2.00 qt, 1 L) * 2 else round(flow_caught, to = 1 L)";
    assert_eq!(outcome.trace.with_values(), shown);
}

#[test]
fn places_and_text_stay() {
    let formula = inside("caught / took");
    assert_eq!(formula.names()[1].span, Span::new(9, 13));
    assert_eq!(formula.text(), "caught / took");
    assert_ne!(formula, check("caught / took", INSIDE).unwrap());
}

#[test]
fn what_is_missing_is_told_by_its_new_name_at_its_place() {
    let formula = inside("caught / took");
    let problem = formula.evaluate(&Names::read("flow_caught = 1 qt\n", 0)).unwrap_err();
    assert_eq!(problem, EvalProblem::NotKnownYet("flow_took".to_owned()));
    assert_eq!(formula.explain(&problem).place(), Some(Span::new(9, 13)));
}
