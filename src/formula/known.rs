//! What a part of a formula came to, and which of two such values is larger.

use std::borrow::Cow;
use std::cmp::Ordering;

use super::suggested::Suggested;
use super::tree::Comparison;
use crate::quantity::Num;

/// What a part came to. A text that stands in the formula stays there.
#[derive(Clone, Debug)]
pub(super) enum Known<'formula> {
    /// A number in coherent base units, and the unit to show it in where one suggests itself.
    Number {
        base: Num,
        unit: Option<Suggested>,
    },
    Truth(bool),
    Text(Cow<'formula, str>),
}

pub(super) fn order(left: &Known<'_>, right: &Known<'_>) -> Ordering {
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
