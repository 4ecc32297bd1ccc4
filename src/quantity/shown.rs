use std::cmp::Ordering;
use std::fmt;

use super::{Dimension, Num, Quantity, Unit};

/// Digits that are tried, one more at a time, until a value is seen on its side of a limit.
const MOST_DIGITS: i32 = 17;
const FEWEST_DIGITS: i32 = 5;

/// A short exact decimal in full, anything else with five significant digits, money to the hundredth; then the unit.
impl fmt::Display for Quantity {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.shown_to(FEWEST_DIGITS))
    }
}

impl Quantity {
    /// A short exact decimal in full, anything else with so many significant digits, but money to the hundredth: a sum
    /// is paid to the last coin, however long it is.
    pub(crate) fn shown_to(&self, digits: i32) -> String {
        let short = self.number.shown();
        let in_full = Num::parse_decimal(&short).is_some_and(|number| number == self.number);
        let number = match self.to_the_coin() {
            _ if in_full => short,
            Some(coins) => coins,
            None => self.number.shown_with(digits),
        };
        with_unit(&number, &self.unit)
    }

    /// With two decimals, if it is money of at least one.
    fn to_the_coin(&self) -> Option<String> {
        let is_money = self.unit.dimension() == Dimension::MONEY && self.number.abs() >= Num::ONE;
        is_money.then(|| self.number.with_places(2))
    }

    /// As it is shown beside a limit: with as many digits as it takes to see on which side of it the value
    /// is. Without a common measure, as it is shown alone.
    ///
    /// ```
    /// use bayhand::quantity::parse_literal;
    ///
    /// let value = parse_literal("55.0000004 °C").unwrap();
    /// assert_eq!(value.show_beside(&parse_literal("55.00 °C").unwrap()), "55.0000004 °C");
    /// ```
    pub fn show_beside(&self, limit: &Self) -> String {
        let Ok(limit) = limit.in_unit(&self.unit) else {
            return self.to_string();
        };
        let short = self.number.shown();
        let longer = (FEWEST_DIGITS + 1..=MOST_DIGITS).map(|digits| self.number.shown_with(digits));
        let side = self.number.cmp(&limit.number);
        let shown = std::iter::once(short).chain(longer).find(|shown| is_seen(shown, limit.number, side));
        with_unit(&shown.unwrap_or_else(|| self.number.to_exact_text()), &self.unit)
    }
}

/// Whether the number as it is shown, and the limit as it is shown, are in this order. A value exactly on its
/// limit may be shown rounded: it is told in words.
fn is_seen(shown: &str, limit: Num, side: Ordering) -> bool {
    let read = Num::parse_decimal(shown);
    side == Ordering::Equal
        || read.is_some_and(|read| {
            let limit_shown = Num::parse_decimal(&limit.shown()).unwrap_or(limit);
            read.cmp(&limit) == side && read.cmp(&limit_shown) == side
        })
}

/// A number and its unit; degrees of angle stand close to the number.
pub(super) fn with_unit(number: &str, unit: &Unit) -> String {
    match unit.to_string().as_str() {
        "" => number.to_owned(),
        "°" => format!("{number}°"),
        symbol => format!("{number} {symbol}"),
    }
}
