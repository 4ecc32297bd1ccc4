//! What the names in a formula stand for at one moment of a run.

use super::book::Book;
use super::event::Answered;
use super::state::State;
use crate::formula::{Value, World};
use crate::procedure::Name;

/// The names of a procedure as they stand.
#[derive(Clone, Copy)]
pub struct Known<'run> {
    /// What the run goes by.
    pub book: &'run Book,
    /// What has happened.
    pub state: &'run State,
}

impl World for Known<'_> {
    fn value_of(&self, name: &str) -> Option<Value> {
        let name = Name(name.to_owned());
        self.reading(&name).or_else(|| self.vehicle(&name)).or_else(|| self.computed(&name))
    }

    fn typed(&self, name: &str) -> Option<String> {
        let name = Name(name.to_owned());
        let taken = self.state.latest(&name).map(|taken| &taken.value);
        match taken.or_else(|| self.state.vehicle.get(&name).map(|given| &given.value))? {
            Answered::Quantity(entry) => Some(entry.with_unit()),
            _ => None,
        }
    }
}

impl Known<'_> {
    fn reading(&self, name: &Name) -> Option<Value> {
        if self.state.again.contains(name) {
            return None;
        }
        as_value(&self.state.latest(name)?.value)
    }

    fn vehicle(&self, name: &Name) -> Option<Value> {
        let declared = self.book.procedure.vehicle().get(name)?;
        if let Some(given) = self.state.vehicle.get(name) {
            return as_value(&given.value);
        }
        let entry = self.book.sheet.as_ref()?.value(name.as_str())?;
        match &declared.unit {
            Some(unit) => entry.quantity.as_ref()?.in_unit(unit).ok().map(Value::Quantity),
            None => Some(Value::Text(entry.text.clone())),
        }
    }

    fn computed(&self, name: &Name) -> Option<Value> {
        let value = self.book.procedure.value(name)?;
        let outcome = value.formula.evaluate(self).ok()?;
        match outcome.value {
            Value::Quantity(quantity) => quantity.in_unit(&value.unit).ok().map(Value::Quantity),
            other => Some(other),
        }
    }
}

fn as_value(answered: &Answered) -> Option<Value> {
    match answered {
        Answered::Quantity(entry) => Some(Value::Quantity(entry.typed.clone())),
        Answered::Choice(text) | Answered::Text(text) => Some(Value::Text(text.clone())),
        Answered::Date(_) => None,
    }
}
