//! Quantities and formulas: what is read is printed and reads back the same.

use bayhand::formula::{Formula, Value};
use bayhand::quantity::{Num, Quantity, Unit, parse_date, parse_entry, parse_literal, parse_typed};
use bayhand::source::{Diagnostic, Look, SourceText, render};

use super::text;
use crate::formula::world::Names;

/// Units that something typed is asked in.
const ASKED: [&str; 12] = ["mm", "in", "°C", "°F", "s", "N·m", "psi", "L", "mi", "%", "kg/m³", "1/min"];

/// A number, a unit, or both, and what a person types.
pub fn quantity(bytes: &[u8]) {
    let text = &*text(bytes);
    if let Some(number) = Num::parse_decimal(text) {
        let exact = number.to_exact_text();
        assert_eq!(Num::from_exact_text(&exact), Some(number), "{exact}");
    }
    if let Some(number) = Num::from_exact_text(text) {
        assert_eq!(Num::from_exact_text(&number.to_exact_text()), Some(number));
        assert!(number.to_f64().is_finite());
    }
    parse_date(text);
    unit(text);
    if let Ok(value) = parse_literal(text) {
        exactly(&value);
    }
    if let Ok(value) = parse_typed(text) {
        exactly(&value);
    }
    let asked = ASKED[text.len() % ASKED.len()];
    let asked = Unit::parse(asked).expect("a unit");
    if let Ok(entry) = parse_entry(text, &asked) {
        assert_eq!(entry.text, text);
        assert!(entry.asked.unit.fits(&entry.typed.unit));
        assert_eq!(parse_entry(text, &asked).as_ref(), Ok(&entry));
        exactly(&entry.typed);
        exactly(&entry.asked);
    }
}

/// A unit is itself when its symbol is read.
fn unit(text: &str) {
    match Unit::parse(text) {
        Ok(unit) => {
            let again = Unit::parse(unit.symbol()).expect("its own symbol");
            assert_eq!((again.dimension(), again.kind()), (unit.dimension(), unit.kind()), "{text}");
            assert_eq!(again.symbol(), unit.symbol());
        }
        Err(problem) => assert!(!problem.to_string().is_empty()),
    }
}

/// What is written exactly reads back as the same.
fn exactly(value: &Quantity) {
    let exact = value.to_exact_text();
    assert_eq!(Quantity::from_exact_text(&exact).as_ref(), Some(value), "{exact}");
    assert!(!value.to_string().is_empty() && value.number.to_f64().is_finite());
    if let Ok(base) = value.in_unit(&value.unit) {
        assert_eq!(&base, value);
    }
}

const NAMES: &str = "flow = 2.5 L/min\ntemp = 70.1 °C | 72.8 °C\nlook = \"clear\" of clear, milky\ndone = true\nnone = 0\n\
gap = 3/16 in | not known\ntime = not known, in s\n";

/// A formula: a result or a reason. What is worked out again, and in brackets, comes to the same.
pub fn formula(bytes: &[u8]) {
    let text = &*text(bytes);
    let names = Names::read(NAMES, 0);
    let problems = match Formula::parse(text, 0).and_then(|formula| formula.check(&names)) {
        Err(mistakes) => mistakes,
        Ok(typed) => {
            let outcome = typed.explained(&names);
            assert_eq!(typed.evaluate(&names), outcome.clone().map(|outcome| outcome.value));
            match outcome {
                Ok(outcome) => {
                    assert!(!outcome.trace.show().is_empty());
                    in_brackets(text, &names, &outcome.value);
                    if let Value::Quantity(value) = &outcome.value {
                        exactly(value);
                    }
                    return;
                }
                Err(problem) => vec![typed.explain(&problem)],
            }
        }
    };
    assert!(!problems.is_empty());
    points_into(text, &problems);
}

/// Brackets around all of it change nothing, where there is room for them.
fn in_brackets(text: &str, names: &Names, value: &Value) {
    let Ok(formula) = Formula::parse(&format!("({text})"), 0) else { return };
    if let Ok(typed) = formula.check(names) {
        assert_eq!(typed.evaluate(names).as_ref(), Ok(value), "({text})");
    }
}

/// Each place lies in the formula, or in what declares the names.
fn points_into(text: &str, problems: &[Diagnostic]) {
    for label in problems.iter().flat_map(|problem| &problem.labels) {
        let (start, end) = (label.span.start, label.span.end);
        let lies = |text: &str| text.get(start..end).is_some();
        assert!(start <= end && (lies(text) || lies(NAMES)), "{text:?}: {problems:#?}");
    }
    assert!(!render(problems, &SourceText::new("any", text), Look::PLAIN).is_empty());
}
