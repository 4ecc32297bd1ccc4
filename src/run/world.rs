//! What the names in a formula stand for at one moment of a run.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::book::Book;
use super::event::Answered;
use super::state::State;
use crate::formula::{Value, World};
use crate::procedure::Name;

/// The names of a procedure as they stand. A computed value is worked out once and kept.
pub struct Known<'run> {
    pub(super) book: &'run Book,
    state: &'run State,
    computed: RefCell<BTreeMap<Name, Option<Value>>>,
}

impl<'run> Known<'run> {
    /// The names as they stand after these facts.
    pub fn new(book: &'run Book, state: &'run State) -> Self {
        Self { book, state, computed: RefCell::default() }
    }
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

    /// Values rest on values, however deep: those beneath are worked out first, so that nothing here recurses.
    fn computed(&self, name: &Name) -> Option<Value> {
        self.book.procedure.value(name)?;
        let mut waiting = vec![name.clone()];
        while let Some(value) = waiting.last().cloned() {
            let beneath = self.not_computed_beneath(&value);
            if beneath.is_empty() {
                let result = self.work_out(&value);
                self.computed.borrow_mut().insert(value, result);
                waiting.pop();
            } else {
                waiting.extend(beneath);
            }
        }
        self.computed.borrow().get(name).cloned().flatten()
    }

    fn not_computed_beneath(&self, value: &Name) -> Vec<Name> {
        let computed = self.computed.borrow();
        let is_open = |name: &Name| self.book.procedure.value(name).is_some() && !computed.contains_key(name);
        if is_open(value) {
            self.book.formula_names(value).into_iter().filter(is_open).collect()
        } else {
            Vec::new()
        }
    }

    fn work_out(&self, name: &Name) -> Option<Value> {
        if let Some(known) = self.computed.borrow().get(name) {
            return known.clone();
        }
        let value = self.book.procedure.value(name)?;
        match value.formula.evaluate(self).ok()?.value {
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
