//! A quantity beside others: with as many digits as it takes to tell it from them.

use std::cmp::Ordering;

use super::{Limits, Num, Quantity};

/// More digits than an `f64` tells apart help nobody.
const MOST_DIGITS: i32 = 17;

impl Quantity {
    /// With so many significant digits, and with more where it would be read as one of these and is not, or as lying on
    /// the other side of it.
    pub(crate) fn shown_apart(&self, digits: i32, from: &[&Self]) -> String {
        let shown = (digits..=MOST_DIGITS).map(|digits| self.shown_to(digits));
        let mut told_apart = shown.filter(|shown| from.iter().all(|other| self.is_told(shown, other)));
        told_apart.next().unwrap_or_else(|| self.shown_to(MOST_DIGITS))
    }

    /// The same beside the limits that it is judged by: a value that fails is never shown as the limit that it fails.
    pub(crate) fn shown_beside(&self, digits: i32, limits: Option<&Limits>) -> String {
        let ends = limits.into_iter().flat_map(|limits| limits.lower.iter().chain(&limits.upper));
        let ends: Vec<&Self> = ends.map(|limit| &limit.quantity).collect();
        self.shown_apart(digits, &ends)
    }

    /// Whether a person who reads these words sees on which side of the other one it lies.
    fn is_told(&self, shown: &str, other: &Self) -> bool {
        let (Ok(place), Ok(exact)) = (self.compare(other), other.in_unit(&self.unit)) else { return true };
        let read = |shown: &str| {
            let number = shown.split([' ', '°']).next()?;
            Num::parse_decimal(number)
        };
        let Some(number) = read(shown).filter(|_| place != Ordering::Equal) else { return true };
        let as_read = if other.unit == self.unit { read(&other.to_string()) } else { None };
        number.cmp(&exact.number) == place && as_read.is_none_or(|other| number.cmp(&other) == place)
    }
}
