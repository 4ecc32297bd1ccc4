//! Where a formula looks up its names: what sort of thing each is, and later its value.

use super::Type;
use crate::quantity::Quantity;
use crate::source::{Span, suggest};

/// What a formula may speak of, before anything is known of the values.
pub trait Scope {
    /// What sort of thing a name stands for; `None` when there is no such name.
    fn type_of(&self, name: &str) -> Option<Type>;

    /// Every name there is, for "did you mean".
    fn names(&self) -> Vec<String>;

    /// Whether there are any names.
    fn has_names(&self) -> bool {
        !self.names().is_empty()
    }

    /// The name that was most likely meant.
    fn nearest(&self, name: &str) -> Option<String> {
        suggest::nearest(name, self.names().iter().map(String::as_str)).map(str::to_owned)
    }

    /// Whether a name can have a value of its own in each pass of a repeat.
    fn has_passes(&self, _name: &str) -> bool {
        true
    }

    /// Where a name is declared, in the same source text as the formula.
    fn declared_at(&self, _name: &str) -> Option<Span> {
        None
    }

    /// The texts that a name can have, where they are known: a comparison with any other is a mistake.
    fn choices(&self, _name: &str) -> Vec<String> {
        Vec::new()
    }

    /// The words that can stand in place of the number of a quantity.
    fn instead(&self, _name: &str) -> Vec<String> {
        Vec::new()
    }
}

/// What is known when a formula is evaluated.
pub trait World {
    /// The value of a name; `None` while it is not known yet.
    fn value_of(&self, name: &str) -> Option<Value>;

    /// How a person typed the value: "1.00 qt". Shown in the trace in place of the value.
    fn typed(&self, _name: &str) -> Option<String> {
        None
    }

    /// The values that a name had in each pass of a repeat that counts, oldest first, the present one included; of more
    /// than `most` the newest.
    fn passes_of(&self, name: &str, most: usize) -> Vec<Value> {
        self.value_of(name).into_iter().take(most).collect()
    }
}

/// What a name stands for, or a formula comes to.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A quantity; a plain number has the unit one.
    Quantity(Quantity),
    /// True or false.
    Truth(bool),
    /// A text.
    Text(String),
    /// Words in place of the number that was promised.
    Instead(String),
}

/// A scope and a world without any names: for `bayhand calc`.
#[derive(Clone, Copy, Debug, Default)]
pub struct NoNames;

impl Scope for NoNames {
    fn type_of(&self, _name: &str) -> Option<Type> {
        None
    }

    fn names(&self) -> Vec<String> {
        Vec::new()
    }
}

impl World for NoNames {
    fn value_of(&self, _name: &str) -> Option<Value> {
        None
    }
}
