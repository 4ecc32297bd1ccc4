//! The standards' words for what the procedure declares, and steps with their readings filled in.

use crate::formula::{Value, World};
use crate::procedure::{CheckedProcedure, LevelOfUse, Name, Piece};
use crate::record::amounts::{answer, said};
use crate::run::View;

pub(in crate::record) fn level_word(level: LevelOfUse) -> &'static str {
    match level {
        LevelOfUse::Continuous => "continuous",
        LevelOfUse::Reference => "reference",
        LevelOfUse::Information => "information",
    }
}

/// The linked procedure that something of this source comes from.
pub(in crate::record) fn origin(procedure: &CheckedProcedure, source: usize) -> Option<String> {
    procedure.origin(source).map(|linked| linked.address.clone())
}

/// A text with every name replaced by its value or by what it is; in a repeat, by its values in all passes that count.
/// What was never read stays a blank.
pub(in crate::record) fn filled(view: View<'_>, pieces: &[Piece]) -> String {
    let word = |piece: &Piece| match piece {
        Piece::Text(text) => text.clone(),
        Piece::Mention(name) => meaning(view, &name.value),
    };
    pieces.iter().map(word).collect()
}

fn meaning(view: View<'_>, name: &Name) -> String {
    let procedure = &view.book.procedure;
    let passes = view.over_passes(name);
    if !passes.is_empty() {
        return passes.iter().map(shown).collect::<Vec<_>>().join(", ");
    }
    if procedure.reading(name).is_some() {
        let taken = view.state.latest(name);
        return taken.map_or_else(|| "____".to_owned(), |taken| said(&answer(&taken.value)));
    }
    let stands_for_value = procedure.value(name).is_some() || procedure.vehicle().contains(name);
    if stands_for_value {
        return view.known().value_of(name.as_str()).map_or_else(|| "____".to_owned(), |value| shown(&value));
    }
    procedure.called(name).to_owned()
}

pub(in crate::record) fn shown(value: &Value) -> String {
    match value {
        Value::Quantity(quantity) => quantity.to_string(),
        Value::Truth(truth) => truth.to_string(),
        Value::Text(text) => text.clone(),
    }
}
