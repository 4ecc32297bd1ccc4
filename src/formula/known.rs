//! What a part of a formula came to, and which of two such values is larger.

use std::cmp::Ordering;

use super::tree::Comparison;
use crate::quantity::{Num, Unit};

/// What a part came to.
#[derive(Clone, Debug)]
pub(super) enum Known {
    /// A number in coherent base units, and the unit to show it in where one suggests itself.
    Number {
        base: Num,
        unit: Option<Unit>,
    },
    Truth(bool),
    Text(String),
}

pub(super) fn order(left: &Known, right: &Known) -> Ordering {
    match (left, right) {
        (Known::Number { base: left, .. }, Known::Number { base: right, .. }) => left.cmp(right),
        (Known::Truth(left), Known::Truth(right)) => left.cmp(right),
        (Known::Text(left), Known::Text(right)) => left.cmp(right),
        // The proof rules out a comparison of different sorts.
        _ => Ordering::Less,
    }
}

pub(super) fn holds(comparison: Comparison, order: Ordering) -> bool {
    match comparison {
        Comparison::Less => order.is_lt(),
        Comparison::AtMost => order.is_le(),
        Comparison::More => order.is_gt(),
        Comparison::AtLeast => order.is_ge(),
        Comparison::Equal => order.is_eq(),
        Comparison::Unequal => order.is_ne(),
    }
}
