//! A scope and a world out of lines such as `caught = 1.00 qt`.

use std::collections::BTreeMap;

use bayhand::formula::{EvalProblem, Formula, Outcome, Scope, Type, Typed, Value, World};
use bayhand::quantity::{Quantity, Unit, parse_literal};
use bayhand::source::{Diagnostic, Span};

#[derive(Default)]
pub struct Names(BTreeMap<String, Thing>);

struct Thing {
    gives: Type,
    value: Option<Value>,
    passes: Vec<Value>,
    typed: Option<String>,
    choices: Vec<String>,
    declared: Span,
}

impl Names {
    /// Reads lines `NAME = VALUE`, where VALUE is a quantity, `true`, `false`, `"text"`, `"text" of a, b, c`, or
    /// `not known, in UNIT`; or such values in passes of a repeat, `1.2 s | 1.4 s | not known`. Spans are those of the names in `text`, counted from `base`.
    pub fn read(text: &str, base: usize) -> Self {
        let mut names = BTreeMap::new();
        let mut at = base;
        for line in text.split_inclusive('\n') {
            if let Some((name, value)) = line.split_once('=') {
                let declared = Span::new(at, at + name.trim_end().len());
                names.insert(name.trim().to_owned(), Thing { declared, ..in_passes(value.trim()) });
            }
            at += line.len();
        }
        Self(names)
    }
}

/// The newest of the values between `|` is the present one.
fn in_passes(values: &str) -> Thing {
    let known: Vec<Thing> = values.split(" | ").filter(|value| *value != "not known").map(thing).collect();
    let passes = known.iter().filter_map(|thing| thing.value.clone()).collect();
    let mut newest = known.into_iter().next_back().unwrap();
    if values.ends_with(" | not known") {
        newest = Thing { value: None, typed: None, ..newest };
    }
    Thing { passes, ..newest }
}

fn thing(value: &str) -> Thing {
    let bare = |gives, value| Thing {
        gives,
        value,
        passes: Vec::new(),
        typed: None,
        choices: Vec::new(),
        declared: Span::default(),
    };
    if let Some(unit) = value.strip_prefix("not known, in ") {
        return bare(Type::of(&Unit::parse(unit).unwrap()), None);
    }
    if let Ok(truth) = value.parse() {
        return bare(Type::Truth, Some(Value::Truth(truth)));
    }
    if let Some(text) = value.strip_prefix('"') {
        let (text, choices) = text.split_once('"').unwrap();
        let choices =
            choices.strip_prefix(" of ").map(|choices| choices.split(", ").map(str::to_owned).collect());
        let known = bare(Type::Text, Some(Value::Text(text.to_owned())));
        return Thing { choices: choices.unwrap_or_default(), ..known };
    }
    let quantity: Quantity = parse_literal(value).unwrap_or_else(|_| panic!("`{value}` is a quantity"));
    let known = bare(Type::of(&quantity.unit), Some(Value::Quantity(quantity)));
    Thing { typed: Some(value.to_owned()), ..known }
}

impl Scope for Names {
    fn type_of(&self, name: &str) -> Option<Type> {
        self.0.get(name).map(|thing| thing.gives)
    }

    fn names(&self) -> Vec<String> {
        self.0.keys().cloned().collect()
    }

    fn declared_at(&self, name: &str) -> Option<Span> {
        self.0.get(name).map(|thing| thing.declared)
    }

    fn choices(&self, name: &str) -> Vec<String> {
        self.0.get(name).map(|thing| thing.choices.clone()).unwrap_or_default()
    }
}

impl World for Names {
    fn value_of(&self, name: &str) -> Option<Value> {
        self.0.get(name)?.value.clone()
    }

    fn typed(&self, name: &str) -> Option<String> {
        self.0.get(name)?.typed.clone()
    }

    fn passes_of(&self, name: &str, most: usize) -> Vec<Value> {
        let passes = self.0.get(name).map(|thing| thing.passes.as_slice()).unwrap_or_default();
        passes[passes.len().saturating_sub(most)..].to_vec()
    }
}

pub fn check(formula: &str, names: &str) -> Result<Typed, Vec<Diagnostic>> {
    Formula::parse(formula, 0)?.check(&Names::read(names, 0))
}

pub fn evaluate(formula: &str, names: &str) -> Result<Outcome, EvalProblem> {
    let typed =
        check(formula, names).unwrap_or_else(|mistakes| panic!("`{formula}` is right: {mistakes:#?}"));
    let names = Names::read(names, 0);
    let outcome = typed.explained(&names);
    assert_eq!(
        typed.evaluate(&names),
        outcome.clone().map(|outcome| outcome.value),
        "`{formula}` comes to one result"
    );
    outcome
}

/// The result of a formula without names, as a quantity.
pub fn result(formula: &str) -> Quantity {
    match evaluate(formula, "") {
        Ok(Outcome { value: Value::Quantity(quantity), .. }) => quantity,
        other => panic!("`{formula}` gives {other:?}"),
    }
}

pub fn is_true(formula: &str) -> bool {
    match evaluate(formula, "") {
        Ok(Outcome { value: Value::Truth(truth), .. }) => truth,
        other => panic!("`{formula}` gives {other:?}"),
    }
}
