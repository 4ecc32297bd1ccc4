//! A shipped procedure with the example vehicle's figures and with what somebody reads: what it makes of it.

use std::collections::BTreeMap;
use std::path::Path;

use bayhand::formula::{Value, World};
use bayhand::procedure::{
    CheckedProcedure, CountsAs, Criterion, Ground, Name, ReadingKind, Shelf, read_linked,
};
use bayhand::quantity::{Limit, Limits, Outcome, Quantity, Unit, judge, parse_entry, parse_typed};
use bayhand::source::SourceText;
use bayhand::vehicle;

/// A procedure, and all that is known by now.
pub struct Shop {
    procedure: CheckedProcedure,
    vehicle: BTreeMap<String, Value>,
    /// What was read, a value a pass.
    said: BTreeMap<String, Vec<Value>>,
}

fn shipped(name: &str) -> SourceText {
    SourceText::new(name, std::fs::read_to_string(Path::new("procedures").join(name)).expect("a text"))
}

fn name(of: &str) -> Name {
    Name::from(of)
}

fn typed(text: &str) -> Quantity {
    parse_typed(text).unwrap_or_else(|_| panic!("{text}"))
}

impl Shop {
    /// A shipped procedure and its example vehicle.
    pub fn of(procedure: &str) -> Self {
        let shelf: Shelf =
            ["seized-fastener.md"].map(|file| (file.to_owned(), shipped(file))).into_iter().collect();
        let found = read_linked(&shipped(&format!("{procedure}.md")), procedure, &shelf);
        let sheet = vehicle::read(&shipped("vehicle-example.toml")).value.expect("a sheet");
        let value = |text: &str, quantity: Option<&Quantity>| {
            quantity
                .map_or_else(|| Value::Text(text.to_owned()), |quantity| Value::Quantity(quantity.clone()))
        };
        let values =
            sheet.values().map(|(name, one)| (name.to_owned(), value(&one.text, one.quantity.as_ref())));
        Self {
            procedure: found.value.expect("a procedure"),
            vehicle: values.collect(),
            said: BTreeMap::new(),
        }
    }

    /// What must be known of the vehicle in numbers: its name, its unit, and whether there is something that people usually take.
    pub fn figures(&self) -> Vec<(String, String, bool)> {
        let figures = self.procedure.vehicle().iter().filter_map(|(name, value)| {
            let unit = value.unit.as_ref()?;
            Some((name.to_string(), unit.to_string(), value.usual.is_some()))
        });
        figures.collect()
    }

    /// Another figure of the vehicle than the example's.
    pub fn vehicle(mut self, of: &str, text: &str) -> Self {
        assert!(self.vehicle.insert(of.to_owned(), Value::Quantity(typed(text))).is_some(), "{of}");
        self
    }

    /// What was read.
    pub fn said(self, reading: &str, text: &str) -> Self {
        self.said_each(reading, &[text])
    }

    /// What was read, pass by pass.
    pub fn said_each(mut self, reading: &str, texts: &[&str]) -> Self {
        let values = texts.iter().map(|text| self.answer(reading, text)).collect();
        self.said.insert(reading.to_owned(), values);
        self
    }

    fn answer(&self, reading: &str, text: &str) -> Value {
        let reading =
            self.procedure.reading(&name(reading)).unwrap_or_else(|| panic!("no reading {reading}"));
        if reading.outcome(text).is_some() {
            return Value::Instead(text.to_owned());
        }
        match &reading.kind {
            ReadingKind::Quantity { unit, .. } => Value::Quantity(entered(text, unit)),
            ReadingKind::Count { .. } => Value::Quantity(entered(text, &Unit::one())),
            ReadingKind::Choice { choices, .. } => {
                assert!(choices.iter().any(|choice| choice == text), "{text} is not offered");
                Value::Text(text.to_owned())
            }
            _ => panic!("no quantity and no choice"),
        }
    }

    /// Whether an answer to a reading is good, by the procedure and this vehicle.
    pub fn takes(&self, of: &str, text: &str) -> bool {
        let reading = self.procedure.reading(&name(of)).unwrap_or_else(|| panic!("no reading {of}"));
        if let Some(outcome) = reading.outcome(text) {
            return outcome.counts != CountsAs::Fail;
        }
        match (&reading.kind, self.answer(of, text)) {
            (
                ReadingKind::Quantity { criterion, .. } | ReadingKind::Count { criterion },
                Value::Quantity(found),
            ) => self.meets(criterion, &found),
            (ReadingKind::Choice { accept, .. }, Value::Text(choice)) => {
                accept.as_ref().expect("choices that are judged").contains(&choice)
            }
            other => panic!("{of}: {other:?}"),
        }
    }

    /// Whether a reading lies beyond its ceiling, where nothing is judged any more.
    pub fn is_beyond(&self, of: &str, text: &str) -> bool {
        let reading = self.procedure.reading(&name(of)).expect("a reading");
        let above =
            reading.ceiling.as_ref().and_then(|ceiling| ceiling.never_above.as_ref()).expect("a ceiling");
        let Value::Quantity(most) = self.now().evaluated(above) else { panic!("{of}") };
        !is_within(&typed(text), &Limits::max(most))
    }

    fn meets(&self, criterion: &Criterion, found: &Quantity) -> bool {
        let now = self.now();
        let quantity = |formula: &bayhand::formula::Typed| match now.evaluated(formula) {
            Value::Quantity(quantity) => quantity,
            other => panic!("{other:?}"),
        };
        let limits = match criterion {
            Criterion::Limits { lower, upper } => {
                let limit = |bound: &Option<bayhand::procedure::Bound>| {
                    let bound = bound.as_ref()?;
                    Some(Limit { quantity: quantity(&bound.formula), inclusive: bound.inclusive })
                };
                Limits { lower: limit(lower), upper: limit(upper) }
            }
            Criterion::Target { target, within } => {
                Limits::around(&quantity(target), &quantity(within)).expect("of one kind")
            }
            other => panic!("nothing to judge by: {other:?}"),
        };
        assert!(limits.lower.is_some() || limits.upper.is_some(), "a limit");
        is_within(found, &limits)
    }

    /// Whether a value that is worked out is good.
    pub fn is_good(&self, value: &str) -> bool {
        let one = self.procedure.value(&name(value)).unwrap_or_else(|| panic!("no value {value}"));
        self.meets(&one.criterion, &self.quantity(value))
    }

    /// Something in a unit: of the vehicle, read, or worked out.
    pub fn amount(&self, of: &str, unit: &str) -> f64 {
        let unit = if unit == "1" { Unit::one() } else { typed(&format!("1 {unit}")).unit };
        self.quantity(of).in_unit(&unit).expect("of this kind").number.to_f64()
    }

    fn quantity(&self, of: &str) -> Quantity {
        match self.now().value_of(of) {
            Some(Value::Quantity(quantity)) => quantity,
            other => panic!("{of}: {other:?}"),
        }
    }

    /// Whether a condition holds.
    pub fn holds(&self, condition: &str) -> bool {
        match self.now().value_of(condition) {
            Some(Value::Truth(holds)) => holds,
            other => panic!("{condition}: {other:?}"),
        }
    }

    /// Whether a repeat has come to its end after the passes that were told.
    pub fn is_over(&self, repeat: &str) -> bool {
        let repeat = self.procedure.repeats().get(&name(repeat)).expect("a repeat");
        let bayhand::procedure::Passes::Until(until) = &repeat.passes else { panic!("it has no end") };
        self.now().evaluated(until) == Value::Truth(true)
    }

    /// The shortest time of a wait, in minutes.
    pub fn least_wait(&self, of: &str) -> f64 {
        let wait = self.procedure.waits().get(&name(of)).expect("a wait");
        let minutes = typed("1 min").unit;
        wait.at_least.as_ref().expect("a shortest time").in_unit(&minutes).expect("a time").number.to_f64()
    }

    fn now(&self) -> At<'_> {
        At { shop: self, pass: self.said.values().map(Vec::len).max().unwrap_or(1) }
    }
}

fn entered(text: &str, unit: &Unit) -> Quantity {
    parse_entry(text, unit).unwrap_or_else(|_| panic!("{text}")).asked
}

fn is_within(found: &Quantity, limits: &Limits) -> bool {
    judge(found, limits).expect("of one kind").outcome == Outcome::Pass
}

/// The shop after so many passes.
struct At<'s> {
    shop: &'s Shop,
    pass: usize,
}

impl At<'_> {
    fn evaluated(&self, formula: &bayhand::formula::Typed) -> Value {
        formula.evaluate(self).unwrap_or_else(|problem| panic!("{}: {problem:?}", formula.text()))
    }
}

impl World for At<'_> {
    fn value_of(&self, of: &str) -> Option<Value> {
        let Shop { procedure, vehicle, said } = self.shop;
        if let Some(passes) = said.get(of) {
            return passes.get(self.pass.min(passes.len()) - 1).cloned();
        }
        if let Some(value) = procedure.value(&name(of)) {
            return value.formula.evaluate(self).ok();
        }
        if let Some(condition) = procedure.condition(&name(of)) {
            let Ground::If(formula) = &condition.ground else { return None };
            return formula.evaluate(self).ok();
        }
        vehicle.get(of).cloned()
    }

    fn passes_of(&self, of: &str, most: usize) -> Vec<Value> {
        let passes = (1..=self.pass).filter_map(|pass| At { shop: self.shop, pass }.value_of(of));
        let passes: Vec<Value> = passes.collect();
        passes[passes.len().saturating_sub(most)..].to_vec()
    }
}
