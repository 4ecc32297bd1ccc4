//! Working out what follows from all that was said.

use std::collections::BTreeMap;

use crate::procedure::{Name, SectionId};
use crate::run::book::Book;
use crate::run::memo::Memo;
use crate::run::passes::round::Round;
use crate::run::state::State;
use crate::run::view::View;
use crate::run::work::part::Part;
use crate::run::work::tree::{OccurrenceId, PassEnd};
use crate::run::work::unsettled::unsettled;

/// Works out what follows from what was said. What was known of passes that have ended is gone on from, unless what
/// they rest on was changed.
pub(in crate::run) fn derive(book: &Book, state: &mut State) {
    let Some(last) = state.last.clone() else { return };
    let before = std::mem::take(&mut state.derived);
    let mut known = if state.is_just_revised() { BTreeMap::new() } else { before.rounds };
    state.derived.sections = vec![None; book.procedure.sections().len()];
    state.derived.steps = vec![None; book.procedure.steps().len()];
    let mut unroll = |state: &mut State, part: Part| {
        let within = part.around(&book.procedure).and_then(|around| state.derived.present(around));
        let repeat = part.repeat(&book.procedure);
        if let Some(repeat) = repeat {
            let known = known.remove(repeat);
            let round = Round::of(View::new(book, state, &last.at), repeat, within, known);
            state.derived.rounds.insert(repeat.clone(), round);
        }
        let present = within.and_then(|within| present(state, within, part, repeat));
        match part {
            Part::Run => {}
            Part::Section(section) => state.derived.sections[section.0] = present,
            Part::Step(step) => state.derived.steps[step.0] = present,
        }
    };
    for place in 0..book.procedure.sections().len() {
        unroll(state, Part::Section(SectionId(place)));
        for step in book.procedure.steps_in(SectionId(place)) {
            unroll(state, Part::Step(step.id));
        }
    }
    if state.revised.is_some() {
        let memo = Memo::default();
        state.derived.unsettled = unsettled(View::new(book, state, &last.at).remembering(&memo));
    }
}

/// The turn of a part that goes on, or the last pass where there is no further one.
fn present(state: &State, within: OccurrenceId, part: Part, repeat: Option<&Name>) -> Option<OccurrenceId> {
    let round = repeat.and_then(|repeat| state.derived.round(repeat));
    if let Some(round) = round.filter(|round| round.over.is_some()) {
        return round.ended.last().copied();
    }
    let last = *state.tree.turns(within, part).last()?;
    match state.tree.get(last).end.as_ref().map(|end| &end.how) {
        Some(PassEnd::SetAside(_)) => None,
        Some(_) if repeat.is_some() => None,
        Some(_) | None => Some(last),
    }
}
