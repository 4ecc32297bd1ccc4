//! The table of units worked out from its rows, and what is read and made by it.

use std::collections::HashMap;
use std::sync::LazyLock;

use super::find::{UnknownUnit, spellings, unknown};
use super::measure::{Measure, Unit};
use super::parse::parse_with;
use super::product::Product;
use super::row::{Meaning, Row};
use super::rows::ROWS;
use crate::quantity::Num;

/// No unit is longer than this; a longer text is refused unread.
const LONGEST: usize = 64;

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

/// Where each spelling stands in it.
static SPELLINGS: LazyLock<HashMap<&'static str, usize>> = LazyLock::new(|| spellings(&UNITS));

/// The unit of the table that is spelled exactly so.
pub(super) fn spelled(text: &str) -> Option<&'static Unit> {
    UNITS.get(*SPELLINGS.get(text)?).map(|(_, unit)| unit)
}

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

impl Unit {
    /// Whether it has a row of its own in the table, by its symbol.
    pub(crate) fn is_of_the_table(symbol: &str) -> bool {
        spelled(symbol).is_some_and(|unit| unit.symbol() == symbol)
    }

    /// Reads a unit as people write it: `lbf·ft`, `ft-lb`, `L/min`, `mm²`, `g/cm3`, `kg·m/s^2`, `kJ/(kg·K)`.
    ///
    /// A spelling of the table comes first, then the same without regard to capitals where only one unit is
    /// meant, then a product or quotient of units of the table, in which `°C` and `°F` are differences. A slash
    /// divides by what follows it up to the next `·` or `/`. An empty text is the unit of a plain number.
    ///
    /// ```
    /// use bayhand::quantity::Unit;
    ///
    /// assert_eq!(Unit::parse("kg*m/s2").unwrap().factor(), Unit::parse("N").unwrap().factor());
    /// assert_eq!(Unit::parse("PSI").unwrap().symbol(), "psi");
    /// ```
    pub fn parse(text: &str) -> Result<Self, UnknownUnit> {
        let text = text.trim();
        if let Some(unit) = spelled(text) {
            return Ok(unit.clone());
        }
        if text.len() > LONGEST {
            return Err(unknown(text, units()));
        }
        parse_with(text, units()).ok_or_else(|| unknown(text, units()))
    }

    /// The unit of a product; degrees Celsius and Fahrenheit count as differences.
    ///
    /// ```
    /// use bayhand::quantity::Unit;
    ///
    /// let flow = Unit::parse("qt").unwrap().per(&Unit::parse("s").unwrap());
    /// assert_eq!(flow.symbol(), "qt/s");
    /// ```
    #[must_use]
    pub fn times(&self, other: &Self) -> Self {
        Product::of([(self, 1), (other, 1)]).unit(spelled)
    }

    /// The unit of a quotient; degrees Celsius and Fahrenheit count as differences.
    #[must_use]
    pub fn per(&self, other: &Self) -> Self {
        Product::of([(self, 1), (other, -1)]).unit(spelled)
    }

    /// The unit of a power with a whole exponent; degrees Celsius and Fahrenheit count as differences.
    #[must_use]
    pub fn powi(&self, exponent: i32) -> Self {
        Product::of([(self, exponent)]).unit(spelled)
    }
}
