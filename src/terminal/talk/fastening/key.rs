//! The key that says a place is done.

use crate::procedure::Name;
use crate::run::{FasteningEvent, Spot, View};

/// Keys that mean something else at a question like this, or at the one before.
const TAKEN: &str = "abcdgostwy?!";
/// Keys for places whose own signs give none. Each in turn, so that one follows the other.
const IN_TURN: [char; 2] = ['j', 'k'];

/// The key for a place: a digit or a letter of its own, the last digit first, and never one that the place before it
/// had. A key that is held down says that one place is done, and no more.
pub(super) fn key_for(view: View<'_>, at: &Spot) -> char {
    let before = last_done(view, &at.group);
    let refused: Vec<char> = before.map(signs).unwrap_or_default();
    let own = signs(&at.position).into_iter().find(|sign| !refused.contains(sign));
    own.unwrap_or_else(|| IN_TURN[acts(view, &at.group) % IN_TURN.len()])
}

/// What of a place's name can be its key, the best first.
fn signs(position: &str) -> Vec<char> {
    let digits = position.chars().rev().filter(char::is_ascii_digit);
    let letters =
        position.chars().filter(char::is_ascii_alphabetic).map(|letter| letter.to_ascii_lowercase());
    digits.chain(letters).filter(|sign| !TAKEN.contains(*sign)).collect()
}

/// The place that was done by the last key, and not by a line that was typed since.
fn last_done<'run>(view: View<'run>, group: &Name) -> Option<&'run str> {
    match &view.acts_now(group).last()?.event {
        FasteningEvent::Tightened { at, .. } => Some(&at.position),
        _ => None,
    }
}

fn acts(view: View<'_>, group: &Name) -> usize {
    view.acts_now(group).count()
}
