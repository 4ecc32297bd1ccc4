//! Which passes of a repeat count, and what its formulas come to.

use super::book::Book;
use super::rounds::{PassEnd, Rounds};
use super::state::State;
use super::world::Known;
use crate::formula::{Typed, Value};
use crate::procedure::{Name, Repeat};

/// Which passes of this round count: valid ones, after the last that begins the count anew.
pub(super) fn count(book: &Book, state: &State, repeat: &Repeat, name: &Name, rounds: &mut Rounds) {
    let first = rounds.ended.len() - rounds.live;
    let resets = |place: usize| {
        let known = Known::in_pass(book, state, name, place);
        repeat.resets.as_ref().is_some_and(|resets| holds(resets, &known))
    };
    let reset = (first..rounds.ended.len()).rev().find(|place| resets(*place));
    for place in first..rounds.ended.len() {
        if let Some(pass) = rounds.ended.get_mut(place) {
            pass.counts = pass.end == PassEnd::Counts && reset.is_none_or(|reset| place > reset);
        }
    }
}

/// Whether a formula holds; not, where it cannot be worked out.
pub(super) fn holds(formula: &Typed, known: &Known<'_>) -> bool {
    matches!(formula.evaluate(known), Ok(Value::Truth(true)))
}

/// A count that a formula comes to; none where it cannot be worked out or is not whole.
pub(super) fn whole(formula: &Typed, known: &Known<'_>) -> Option<usize> {
    match formula.evaluate(known).ok()? {
        Value::Quantity(quantity) => {
            let number = quantity.base();
            let whole = number.is_whole() && !number.is_negative();
            whole.then(|| number.to_exact_text().parse().ok()).flatten()
        }
        _ => None,
    }
}
