//! What a row of the table of units is.

use crate::quantity::Dimension;

/// One unit of the table.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    /// What it is shown as.
    pub symbol: &'static str,
    /// What else it may be typed as.
    pub aliases: &'static [&'static str],
    /// Its name in plain English.
    pub name: &'static str,
    pub(super) meaning: Meaning,
}

#[derive(Clone, Copy, Debug)]
pub(super) enum Meaning {
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
