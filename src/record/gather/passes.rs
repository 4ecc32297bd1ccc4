//! What each pass of a repeat is called, and whether it counts.

use std::collections::{BTreeMap, BTreeSet};

use crate::procedure::{self, Name, Passes};
use crate::run::{OccurrenceId, Round, View};

/// What a pass is called, and what tells it from the others.
pub(in crate::record) struct PassOf {
    pub(in crate::record) repeat: Name,
    /// As a person says it: `pass 2 of 3 (left)`.
    pub(in crate::record) words: String,
    /// Its item, or its number where it is one of so many; none of passes until something holds, which replace each other.
    pub(in crate::record) key: Option<String>,
    pub(in crate::record) number: usize,
    /// Whether it counts in the end.
    pub(super) counts: bool,
}

/// Every pass of every repeat.
pub(super) fn every_pass(view: View<'_>) -> BTreeMap<OccurrenceId, PassOf> {
    let repeats = view.book.procedure.repeats().iter();
    let rounds = repeats
        .flat_map(|(name, repeat)| view.rounds(name).into_iter().map(move |round| (name, repeat, round)));
    rounds.flat_map(|(name, repeat, round)| passes_of(view, name, repeat, &round)).collect()
}

fn passes_of(
    view: View<'_>,
    name: &Name,
    repeat: &procedure::Repeat,
    round: &Round,
) -> Vec<(OccurrenceId, PassOf)> {
    let tree = &view.state.tree;
    let (Some(within), Some(part)) = (round.within, view.book.part_of(name)) else { return Vec::new() };
    let wanted = view.inside(within).wanted(name);
    let counting: BTreeSet<OccurrenceId> = round.counting.iter().copied().collect();
    let pass = |at: &OccurrenceId| {
        let pass = round.pass(view, Some(*at));
        let words = pass.words(wanted);
        let key = match repeat.passes {
            Passes::Each(_) | Passes::EachOf(_) => pass.item,
            Passes::Times(_) => Some(pass.place.to_string()),
            Passes::Until(_) => None,
        };
        let counts = counting.contains(at);
        (*at, PassOf { repeat: name.clone(), words, key, number: pass.number, counts })
    };
    tree.turns(within, part).iter().map(pass).collect()
}
