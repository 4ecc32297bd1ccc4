//! Limits: the least and the most that is acceptable, and whether the limit itself still is.

use std::fmt;

use super::{Dimension, Mismatch, Quantity, Unit};

/// One end of what is acceptable.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Limit {
    /// Where it is.
    pub quantity: Quantity,
    /// Whether a value exactly on it is acceptable: so for `min` and `max`, not for `above` and `below`.
    pub inclusive: bool,
}

impl Limit {
    /// A limit that may be met exactly: a minimum or a maximum.
    pub fn inclusive(quantity: Quantity) -> Self {
        Self { quantity, inclusive: true }
    }

    /// A limit that may not be met exactly: above it, or below it.
    pub fn exclusive(quantity: Quantity) -> Self {
        Self { quantity, inclusive: false }
    }
}

/// What is acceptable: between two limits, on one side of one, or anything.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Limits {
    /// Not below this.
    pub lower: Option<Limit>,
    /// Not above this.
    pub upper: Option<Limit>,
}

impl Limits {
    /// At least this.
    pub fn min(quantity: Quantity) -> Self {
        Self { lower: Some(Limit::inclusive(quantity)), upper: None }
    }

    /// At most this.
    pub fn max(quantity: Quantity) -> Self {
        Self { lower: None, upper: Some(Limit::inclusive(quantity)) }
    }

    /// More than this.
    pub fn above(quantity: Quantity) -> Self {
        Self { lower: Some(Limit::exclusive(quantity)), upper: None }
    }

    /// Less than this.
    pub fn below(quantity: Quantity) -> Self {
        Self { lower: None, upper: Some(Limit::exclusive(quantity)) }
    }

    /// From one to the other, both included.
    pub fn between(least: Quantity, most: Quantity) -> Self {
        Self { lower: Some(Limit::inclusive(least)), upper: Some(Limit::inclusive(most)) }
    }

    /// From `target` less `within` to `target` plus `within`, both included. `within` is a quantity of the same kind (of a
    /// temperature: a difference), or a ratio of the target: `4 %`.
    pub fn around(target: &Quantity, within: &Quantity) -> Result<Self, Mismatch> {
        let ratio = within.unit.dimension() == Dimension::NONE && target.unit.dimension() != Dimension::NONE;
        let within = if ratio { target.scaled(within.base())? } else { within.clone() };
        let in_target_unit = |quantity: Quantity| quantity.in_unit(&target.unit);
        let lower = in_target_unit(target.minus(&within)?)?;
        Ok(Self::between(lower, in_target_unit(target.plus(&within)?)?))
    }

    /// The same limits in another unit of their kind.
    pub fn in_unit(&self, unit: &Unit) -> Option<Self> {
        let bound = |limit: &Option<Limit>| match limit {
            None => Some(None),
            Some(limit) => {
                let quantity = limit.quantity.in_unit(unit).ok()?;
                Some(Some(Limit { quantity, inclusive: limit.inclusive }))
            }
        };
        Some(Self { lower: bound(&self.lower)?, upper: bound(&self.upper)? })
    }

    /// Whether everything is acceptable.
    pub fn is_empty(&self) -> bool {
        self.lower.is_none() && self.upper.is_none()
    }
}

/// `34 N·m to 40 N·m`, `at least 2.5 L/min`, `above 0 psi and at most 30 psi`.
impl fmt::Display for Limits {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.lower, &self.upper) {
            (None, None) => out.write_str("no limit"),
            (Some(lower), None) => write!(out, "{} {}", lower_word(lower), lower.quantity),
            (None, Some(upper)) => write!(out, "{} {}", upper_word(upper), upper.quantity),
            (Some(lower), Some(upper)) if lower == upper && lower.inclusive => {
                write!(out, "exactly {}", lower.quantity)
            }
            (Some(lower), Some(upper)) if lower.inclusive && upper.inclusive => {
                write!(out, "{} to {}", lower.quantity, upper.quantity)
            }
            (Some(lower), Some(upper)) => write!(
                out,
                "{} {} and {} {}",
                lower_word(lower),
                lower.quantity,
                upper_word(upper),
                upper.quantity
            ),
        }
    }
}

fn lower_word(limit: &Limit) -> &'static str {
    if limit.inclusive { "at least" } else { "above" }
}

fn upper_word(limit: &Limit) -> &'static str {
    if limit.inclusive { "at most" } else { "below" }
}
