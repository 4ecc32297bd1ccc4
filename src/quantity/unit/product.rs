//! Units made of others: products, quotients and powers.

use super::measure::{Measure, Unit};
use super::normal::{MOST_POWER, normal, pieces, raised};
use crate::quantity::{Dimension, Num};

/// A product of powers of units, as it is put together.
pub(super) struct Product {
    pieces: Vec<(String, i32)>,
    factor: Num,
    dimension: Dimension,
}

impl Default for Product {
    fn default() -> Self {
        Self { pieces: Vec::new(), factor: Num::ONE, dimension: Dimension::NONE }
    }
}

impl Product {
    pub(super) fn of<const N: usize>(units_and_powers: [(&Unit, i32); N]) -> Self {
        let mut product = Self::default();
        for (unit, power) in units_and_powers {
            // A power of a factor is missing only where the factor is zero, which none is; and a formula whose
            // dimensions grow past what is kept is refused before it is worked out.
            let _ = product.take(unit, power);
        }
        product
    }

    /// Multiplies by a unit to a power; `None` when that is beyond all numbers, or measures nothing that is known.
    pub(super) fn take(&mut self, unit: &Unit, power: i32) -> Option<()> {
        let factor = self.factor * unit.factor().powi(power)?;
        self.dimension = self.dimension.checked_mul(unit.dimension().checked_powi(power.into())?)?;
        self.factor = factor;
        let symbol = normal(unit.symbol().trim_start_matches('Δ'));
        for (name, inner) in pieces(&symbol).unwrap_or_default() {
            self.add(name, inner.saturating_mul(power));
        }
        Some(())
    }

    fn add(&mut self, name: &str, power: i32) {
        match self.pieces.iter_mut().find(|(known, _)| known == name) {
            Some((_, sum)) => *sum = sum.saturating_add(power),
            None => self.pieces.push((name.to_owned(), power)),
        }
    }

    /// The unit of the table if there is one of this size and name, else one of its own. A name that the table
    /// reads as something else, as it reads `lb·ft` as a torque, gets a power of one to tell it apart.
    pub(super) fn unit<'a>(mut self, spelled: impl Fn(&str) -> Option<&'a Unit>) -> Unit {
        self.pieces.retain(|(_, power)| *power != 0);
        // In the order in which they are written, and so read again.
        self.pieces.sort_by_key(|(_, power)| *power < 0);
        if !self.factor.is_exact() {
            self.factor = self.factor_of_pieces(&spelled).unwrap_or(self.factor);
        }
        let symbol = self.symbol("");
        match spelled(&symbol) {
            Some(unit) if unit.factor() == self.factor && unit.dimension() == self.dimension => {
                unit.as_difference()
            }
            Some(_) => self.named(&self.symbol("¹")),
            None => self.named(&symbol),
        }
    }

    /// Rounded on another way, it would be another unit of the same name.
    fn factor_of_pieces<'a>(&self, spelled: &impl Fn(&str) -> Option<&'a Unit>) -> Option<Num> {
        self.pieces
            .iter()
            .try_fold(Num::ONE, |factor, (name, power)| Some(factor * spelled(name)?.factor().powi(*power)?))
    }

    /// Whether its symbol can be read again.
    pub(super) fn is_readable(&self) -> bool {
        self.pieces.iter().all(|(_, power)| power.abs() <= MOST_POWER)
    }

    fn named(&self, symbol: &str) -> Unit {
        // So small that it became zero: it still has to be something to divide by.
        let factor = if self.factor.is_zero() { Num::Approx(f64::MIN_POSITIVE) } else { self.factor };
        Unit::from(Measure { symbol: symbol.to_owned(), dimension: self.dimension, factor, zero: None })
    }

    fn symbol(&self, first_power: &str) -> String {
        let above = self.side(|power| power > 0, first_power);
        let below = self.side(|power| power < 0, "");
        let above = if above.is_empty() && !below.is_empty() { "1".to_owned() } else { above };
        match self.pieces.iter().filter(|(_, power)| *power < 0).count() {
            0 => above,
            1 => format!("{above}/{below}"),
            _ => format!("{above}/({below})"),
        }
    }

    /// The names above or below the line, the first one with `first_power` where its power is one.
    fn side(&self, belongs: fn(i32) -> bool, first_power: &str) -> String {
        let mut out = String::new();
        for (name, power) in self.pieces.iter().filter(|(_, power)| belongs(*power)) {
            let power = raised(power.saturating_abs());
            let mark = if out.is_empty() && power.is_empty() { first_power } else { &power };
            let joint = if out.is_empty() { "" } else { "·" };
            out = format!("{out}{joint}{name}{mark}");
        }
        out
    }
}
