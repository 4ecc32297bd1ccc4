//! The roles, hazards and conditions at the front of a step, taken off its words.

use crate::procedure::{Name, Piece, Rare, Table};
use crate::source::Spanned;

use super::Names;

/// Takes roles, hazards and conditions off the front of a step's text, and gives them.
pub(super) fn take_front(text: &mut Vec<Piece>, names: &Names) -> Vec<Piece> {
    let front: Vec<Piece> = text.drain(..end_of_front(text, names)).collect();
    if !front.is_empty()
        && let Some(Piece::Text(words)) = text.first_mut()
    {
        *words = words.trim_start_matches([' ', ',', ':', '\n']).to_owned();
    }
    text.retain(|piece| !matches!(piece, Piece::Text(words) if words.is_empty()));
    front
}

/// The roles at the front of a step.
pub(super) fn roles(front: &[Piece], names: &Names) -> Rare<Name> {
    let mut roles = Rare::default();
    for piece in front {
        if let Piece::Mention(name) = piece
            && names.table(&name.value) == Some(Table::Roles)
            && !roles.contains(&name.value)
        {
            roles.push(name.value.clone());
        }
    }
    roles
}

/// How many pieces belong to the front: up to and with the last mention that nothing but joints separates from
/// the beginning.
fn end_of_front(pieces: &[Piece], names: &Names) -> usize {
    let mut end = 0;
    for (index, piece) in pieces.iter().enumerate() {
        match piece {
            Piece::Mention(name) if belongs_in_front(name, names) => end = index + 1,
            Piece::Text(words) if is_joint(words) => {}
            _ => break,
        }
    }
    end
}

fn belongs_in_front(name: &Spanned<Name>, names: &Names) -> bool {
    names.table(&name.value).is_some_and(Table::belongs_in_front)
}

fn is_joint(words: &str) -> bool {
    matches!(words.trim(), "" | "," | "and" | "&" | "+" | ":" | ", and")
}

/// The names at the front of a step's text, whatever they mean.
pub(in crate::procedure) fn front_names(pieces: &[Piece], names: &Names) -> Vec<Name> {
    let front = pieces.iter().take(end_of_front(pieces, names));
    let name = |piece: &Piece| match piece {
        Piece::Mention(name) => Some(name.value.clone()),
        Piece::Text(_) => None,
    };
    front.filter_map(name).collect()
}
