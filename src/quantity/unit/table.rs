//! What a row of the table of units is, and the table worked out from its rows.

use std::sync::LazyLock;

use super::measure::{Measure, Unit};
use super::parse::parse_with;
use super::rows::ROWS;
use crate::quantity::{Dimension, Num};

/// One unit of the table.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    /// What it is shown as.
    pub symbol: &'static str,
    /// What else it may be typed as.
    pub aliases: &'static [&'static str],
    /// Its name in plain English.
    pub name: &'static str,
    meaning: Meaning,
}

#[derive(Clone, Copy, Debug)]
enum Meaning {
    /// It is a base unit.
    Base(Dimension),
    /// This many of that, as in `12 in`; without a unit, a plain number.
    Amount(&'static str),
    /// A temperature scale: its degree, and what to add to count from absolute zero.
    Scale { degree: &'static str, zero: &'static str },
}

pub(super) const fn base(
    symbol: &'static str,
    aliases: &'static [&'static str],
    name: &'static str,
    dimension: Dimension,
) -> Row {
    Row { symbol, aliases, name, meaning: Meaning::Base(dimension) }
}

pub(super) const fn row(
    symbol: &'static str,
    aliases: &'static [&'static str],
    name: &'static str,
    amount: &'static str,
) -> Row {
    Row { symbol, aliases, name, meaning: Meaning::Amount(amount) }
}

pub(super) const fn scale(
    symbol: &'static str,
    aliases: &'static [&'static str],
    name: &'static str,
    degree: &'static str,
    zero: &'static str,
) -> Row {
    Row { symbol, aliases, name, meaning: Meaning::Scale { degree, zero } }
}

/// Every row of the table, in its order.
pub fn rows() -> &'static [Row] {
    ROWS
}

/// Every unit of the table, in its order, with its row.
pub fn units() -> &'static [(Row, Unit)] {
    &UNITS
}

/// The table worked out, each row with those above it; a row that cannot be is left out (a test holds this to
/// none).
static UNITS: LazyLock<Vec<(Row, Unit)>> = LazyLock::new(|| {
    let mut known: Vec<(Row, Unit)> = Vec::with_capacity(ROWS.len());
    for row in ROWS {
        if let Some(unit) = worked_out(row, &known) {
            known.push((*row, unit));
        }
    }
    known
});

fn worked_out(row: &Row, known: &[(Row, Unit)]) -> Option<Unit> {
    let symbol = row.symbol.to_owned();
    let measure = match row.meaning {
        Meaning::Base(dimension) => Measure { symbol, dimension, factor: Num::ONE, zero: None },
        Meaning::Amount(amount) => Measure { symbol, ..amount_of(amount, known)? },
        Meaning::Scale { degree, zero } => {
            Measure { symbol, zero: Some(Num::from_exact_text(zero)?), ..amount_of(degree, known)? }
        }
    };
    Some(Unit::from(measure))
}

fn amount_of(text: &str, known: &[(Row, Unit)]) -> Option<Measure> {
    let (number, unit) = text.split_once(' ').unwrap_or((text, ""));
    let measure = parse_with(unit, known)?.measure();
    Some(Measure { factor: Num::from_exact_text(number)? * measure.factor, ..measure })
}
