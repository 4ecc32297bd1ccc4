//! The standards' words for what the procedure declares, and steps with their readings filled in.

use super::passes::PassOf;
use super::work::Work;
use crate::formula::{Value, World};
use crate::procedure::{CheckedProcedure, Name, Piece};
use crate::record::amounts::{answer, said};
use crate::run::{Part, StepAt, View};

/// What stands in place of what was never read.
const BLANK: &str = "____";

/// The linked procedure that something of this source comes from.
pub(in crate::record) fn origin(procedure: &CheckedProcedure, source: usize) -> Option<String> {
    procedure.origin(source).map(|linked| linked.address.clone())
}

/// A text with every name replaced by its value there or by what it is; of a repeat that it does not stand in, by its
/// values in all passes that count. What was never read stays a blank.
pub(in crate::record) fn filled(work: &Work<'_>, seen: &StepAt<'_>, pieces: &[Piece]) -> String {
    let filled = |piece: &Piece| match piece {
        Piece::Text(text) => text.clone(),
        Piece::Mention(name) => meaning(work, seen, &name.value),
    };
    pieces.iter().map(filled).collect()
}

fn meaning(work: &Work<'_>, seen: &StepAt<'_>, name: &Name) -> String {
    let (here, procedure) = (work.inside(seen), &work.book().procedure);
    let around = work.passes_around(seen.from());
    if let Some(own) = around.iter().find(|pass| pass.repeat == *name) {
        return own.key.clone().unwrap_or_else(|| own.number.to_string());
    }
    let passes = over_passes(work, here, &around, name);
    if !passes.is_empty() {
        return passes.iter().map(shown).collect::<Vec<_>>().join(", ");
    }
    if let Some(due) = here.due(name).filter(|due| due.set.is_some()) {
        return format!("{} ({due})", due.what);
    }
    if procedure.reading(name).is_some() {
        let taken = here.latest(name).filter(|_| !here.is_blind(name));
        return taken.map_or_else(|| BLANK.to_owned(), |taken| said(&answer(&taken.value)));
    }
    let stands_for_value = procedure.value(name).is_some() || procedure.vehicle().contains(name);
    if stands_for_value {
        return here.known().value_of(name.as_str()).map_or_else(|| BLANK.to_owned(), |value| shown(&value));
    }
    procedure.called(name).to_owned()
}

/// What a name was in the passes that count of a repeat that is not around it, as far as they are seen from here.
fn over_passes(work: &Work<'_>, here: View<'_>, around: &[&PassOf], name: &Name) -> Vec<Value> {
    let book = work.book();
    let over = book.procedure.home(name).map(|step| book.repeats_over(Part::Step(step))).unwrap_or_default();
    let repeat = if book.procedure.repeat(name).is_some() { Some(name) } else { over.last().copied() };
    let Some(repeat) = repeat.filter(|repeat| !around.iter().any(|pass| pass.repeat == **repeat)) else {
        return Vec::new();
    };
    if around.is_empty() {
        return work.view.over_passes(name);
    }
    let passes = here.round(repeat).map(|round| round.into_owned().counting).unwrap_or_default();
    passes.into_iter().filter_map(|pass| here.inside(pass).known().value_of(name.as_str())).collect()
}

pub(in crate::record) fn shown(value: &Value) -> String {
    match value {
        Value::Quantity(quantity) => quantity.to_string(),
        Value::Truth(truth) => truth.to_string(),
        Value::Text(text) | Value::Instead(text) => text.clone(),
    }
}
