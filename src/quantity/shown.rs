//! A quantity as a person reads it: the number, then the unit.

use std::fmt;

use super::{Dimension, Num, Quantity, date};

/// A short exact decimal in full, anything else with five significant digits, money to the hundredth; then the unit.
impl fmt::Display for Quantity {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.shown_to(Self::DIGITS))
    }
}

impl Quantity {
    /// Significant digits of what has no short decimal form.
    pub(crate) const DIGITS: i32 = 5;

    /// As far as a value can be off on either side: `±1 °C`. Behind the sign a degree is a difference.
    pub fn plus_minus(&self) -> String {
        format!("±{self}").replace('Δ', "")
    }

    /// A short exact decimal in full, anything else with so many significant digits, but money to the hundredth: a sum
    /// is paid to the last coin, however long it is.
    pub(crate) fn shown_to(&self, digits: i32) -> String {
        if self.unit.is_date() {
            return date::shown(self.number);
        }
        let short = self.number.shown();
        let in_full = Num::parse_decimal(&short).is_some_and(|number| number == self.number);
        let number = match self.to_the_coin() {
            _ if in_full => short,
            Some(coins) => coins,
            None => self.number.shown_with(digits),
        };
        with_unit(&number, &self.unit.to_string())
    }

    /// With two decimals, if it is money of at least one.
    fn to_the_coin(&self) -> Option<String> {
        let is_money = self.unit.dimension() == Dimension::MONEY && self.number.abs() >= Num::ONE;
        is_money.then(|| self.number.with_places(2))
    }
}

/// A number and its unit; degrees of angle stand close to the number.
pub(crate) fn with_unit(number: &str, symbol: &str) -> String {
    match symbol {
        "" => number.to_owned(),
        "°" => format!("{number}°"),
        symbol => format!("{number} {symbol}"),
    }
}
