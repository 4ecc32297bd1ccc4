//! Wrapping styled lines to a width.

use std::ops::Range;

use textwrap::core::{Word, break_words};
use textwrap::wrap_algorithms::wrap_first_fit;

use super::clean::clean;
use super::{Line, Piece, Role};

/// A row of the screen: its pieces, cleaned, with the indent as the first one.
pub(super) type Row = Vec<Piece>;

/// The least room for words that is left when indents would eat up a narrow screen.
const LEAST: usize = 12;

/// The rows one line takes at this width. Words are never cut, except one that is longer than a whole row.
pub(super) fn wrap(line: &Line, width: usize) -> Vec<Row> {
    let mut rows = Vec::new();
    let mut indent = line.indent;
    for pieces in split_at_line_ends(&line.pieces) {
        rows.extend(wrap_pieces(&pieces, &Indents::new(indent, line.indent + line.hang, width)));
        indent = line.indent + line.hang;
    }
    rows
}

/// Columns left free and columns for words, in the first row and in the others.
struct Indents {
    first: usize,
    others: usize,
    width: usize,
}

impl Indents {
    /// Indents that leave room for words.
    fn new(first: usize, others: usize, width: usize) -> Self {
        let most = width.saturating_sub(LEAST);
        Self { first: first.min(most), others: others.min(most), width }
    }

    fn room(&self, indent: usize) -> usize {
        self.width.saturating_sub(indent).max(1)
    }
}

/// The pieces of each line; a line end inside a piece begins a new one.
fn split_at_line_ends(pieces: &[Piece]) -> Vec<Vec<Piece>> {
    let mut lines = vec![Vec::new()];
    for piece in pieces {
        for (n, words) in clean(&piece.words).split('\n').enumerate() {
            if n > 0 {
                lines.push(Vec::new());
            }
            if let Some(line) = lines.last_mut() {
                line.push(Piece { words: words.into(), role: piece.role });
            }
        }
    }
    lines
}

fn wrap_pieces(pieces: &[Piece], indents: &Indents) -> Vec<Row> {
    let words: String = pieces.iter().map(|piece| piece.words.as_str()).collect();
    let mut rows = Vec::new();
    for range in ranges(&words, indents) {
        let indent = if rows.is_empty() { indents.first } else { indents.others };
        rows.push(cut(pieces, &range, indent));
    }
    rows
}

/// The bytes of the words that stand in each row, without the space at its end.
fn ranges(words: &str, indents: &Indents) -> Vec<Range<usize>> {
    let rooms = [indents.room(indents.first), indents.room(indents.others)];
    // A word that does not fit into a row of its own is cut: a path, say. The first row may be the narrower
    // one, and nobody knows yet which word will stand in it, so the lesser room counts.
    let least = rooms[0].min(rooms[1]);
    let found = break_words(crate::source::find_words(words), least);
    #[expect(clippy::cast_precision_loss, reason = "columns of a screen")]
    let widths = rooms.map(|room| room as f64);
    let mut at = 0;
    wrap_first_fit(&found, &widths).into_iter().map(|row| take(row, &mut at)).collect()
}

/// The bytes of one row; moves on to where the next one begins.
fn take(row: &[Word], at: &mut usize) -> Range<usize> {
    let start = *at;
    *at += row.iter().map(|word| word.word.len() + word.whitespace.len()).sum::<usize>();
    start..*at - row.last().map_or(0, |word| word.whitespace.len())
}

/// What lies in the range, piece by piece, behind an indent.
fn cut(pieces: &[Piece], range: &Range<usize>, indent: usize) -> Row {
    let mut row = Row::new();
    push(&mut row, Role::Plain, &" ".repeat(indent));
    let mut start = 0;
    for piece in pieces {
        let from = range.start.saturating_sub(start);
        let to = range.end.saturating_sub(start).min(piece.words.len());
        push(&mut row, piece.role, piece.words.get(from..to).unwrap_or_default());
        start += piece.words.len();
    }
    row
}

/// A no-break space has done its work when the rows are known; on the screen it is a space like any other.
fn push(row: &mut Row, role: Role, words: &str) {
    if !words.is_empty() {
        row.push(Piece { words: words.replace('\u{a0}', " "), role });
    }
}
