//! From text to what is written: rows with or without attributes.

use console::Style;

use super::text::Block;
use super::wrap::{Row, wrap};
use super::{Line, Manner, Piece, Role, Text};

/// The text as it is written: wrapped to the width, each row with its line end, attributes only where the
/// manner allows them.
pub fn paint(text: &Text, width: usize, manner: Manner) -> String {
    let mut out = String::new();
    for row in lay_out(text, width, manner) {
        for piece in &row {
            out.push_str(&dress(piece, manner));
        }
        out.push('\n');
    }
    out
}

/// The same text in blocks of which none takes more rows than these.
pub(super) fn broken(text: Text, width: usize, room: usize) -> Text {
    let blocks = text.blocks.into_iter().flat_map(|block| {
        let rows = lay_out_block(&block, width, Manner::Mono);
        if rows.len() <= room {
            return vec![block];
        }
        let line = |pieces: Row| Block::Line(Line { pieces, ..Line::new() });
        rows.into_iter().map(line).collect()
    });
    Text { blocks: blocks.collect() }
}

/// The text that fits so many rows, and what is left of it; at least its first block.
pub(super) fn page(text: Text, width: usize, fits: usize) -> (Text, Text) {
    let end = blocks_that_fit(text.blocks.iter(), width, fits);
    cut_at(text, end)
}

/// What comes before the last rows of a text, and as much of its end as fits; at least its last block.
pub(super) fn fits_after(text: Text, width: usize, fits: usize) -> (Text, Text) {
    let tail = blocks_that_fit(text.blocks.iter().rev(), width, fits);
    let start = text.blocks.len().saturating_sub(tail);
    cut_at(text, start)
}

fn blocks_that_fit<'b>(blocks: impl Iterator<Item = &'b Block>, width: usize, fits: usize) -> usize {
    let mut taken = 0;
    let fitting = blocks.take_while(|block| {
        taken += lay_out_block(block, width, Manner::Mono).len();
        taken <= fits
    });
    fitting.count().max(1)
}

fn cut_at(text: Text, at: usize) -> (Text, Text) {
    let mut blocks = text.blocks;
    let rest = blocks.split_off(at.min(blocks.len()));
    (Text { blocks }, Text { blocks: rest })
}

/// How many rows the text takes at this width.
pub fn rows(text: &Text, width: usize, manner: Manner) -> usize {
    lay_out(text, width, manner).len()
}

fn lay_out(text: &Text, width: usize, manner: Manner) -> Vec<Row> {
    text.blocks.iter().flat_map(|block| lay_out_block(block, width, manner)).collect()
}

fn lay_out_block(block: &Block, width: usize, manner: Manner) -> Vec<Row> {
    match (block, manner) {
        (Block::Line(line), _) => wrap(line, width),
        (Block::Gauge(gauge), Manner::Lines) => {
            gauge.added().map(|line| wrap(&line, width)).unwrap_or_default()
        }
        (Block::Gauge(gauge), _) => wrap(&gauge.drawn(width), width),
        (Block::Columns(columns), Manner::Lines) => wrap_all(&columns.told(), width),
        (Block::Columns(columns), _) => wrap_all(&columns.drawn(width), width),
        (Block::Grid(grid), Manner::Lines) => wrap_all(&grid.told(), width),
        (Block::Grid(grid), _) => wrap_all(&grid.drawn(width), width),
    }
}

fn wrap_all(lines: &[Line], width: usize) -> Vec<Row> {
    lines.iter().flat_map(|line| wrap(line, width)).collect()
}

/// The words of one piece with the attributes of its role around them.
pub(super) fn dress(piece: &Piece, manner: Manner) -> String {
    let style = match manner {
        Manner::Lines => None,
        Manner::Mono => shade(piece.role),
        Manner::Colour => colour(piece.role),
    };
    // Whether attributes are allowed is decided by the manner alone, not guessed again for each piece.
    style.map_or_else(
        || piece.words.clone(),
        |style| style.force_styling(true).apply_to(&piece.words).to_string(),
    )
}

/// Bold and dim: they are not colours.
fn shade(role: Role) -> Option<Style> {
    match role {
        Role::Plain | Role::Good => None,
        Role::Faint => Some(Style::new().dim()),
        Role::Strong | Role::Bad | Role::Protection => Some(Style::new().bold()),
        Role::Danger | Role::Warning | Role::Caution | Role::Notice => Some(Style::new().bold().reverse()),
    }
}

/// The safety colours of ANSI Z535.1, as near as sixteen colours come: red, orange, yellow, blue. Orange is
/// the dark yellow, with the signal word to tell them apart.
fn colour(role: Role) -> Option<Style> {
    let bold = Style::new().bold();
    match role {
        Role::Plain => None,
        Role::Faint => Some(Style::new().dim()),
        Role::Strong => Some(bold),
        Role::Good => Some(bold.green()),
        Role::Bad => Some(bold.red()),
        Role::Danger => Some(bold.white().on_red()),
        Role::Warning => Some(Style::new().black().on_yellow()),
        Role::Caution => Some(Style::new().black().on_yellow().on_bright()),
        Role::Notice => Some(bold.white().on_blue()),
        Role::Protection => Some(bold.magenta()),
    }
}
