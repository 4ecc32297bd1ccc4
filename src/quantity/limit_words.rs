use std::fmt;

use super::{Dimension, Limit, Limits, Mismatch, Quantity};

impl Limits {
    /// From `target` less `within` to `target` plus `within`, both included. `within` is a quantity of the same kind (of a
    /// temperature: a difference), or a ratio of the target: `4 %`.
    pub fn around(target: &Quantity, within: &Quantity) -> Result<Self, Mismatch> {
        let ratio = within.unit.dimension() == Dimension::NONE && target.unit.dimension() != Dimension::NONE;
        let within = if ratio { target.scaled(within.base())? } else { within.clone() };
        let in_target_unit = |quantity: Quantity| quantity.in_unit(&target.unit);
        let lower = in_target_unit(target.minus(&within)?)?;
        Ok(Self::between(lower, in_target_unit(target.plus(&within)?)?))
    }
}

/// `45 N·m to 55 N·m`, `at least 2 L/min`, `below 30 psi`.
impl fmt::Display for Limits {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.lower, &self.upper) {
            (None, None) => out.write_str("no limit"),
            (Some(lower), None) => out.write_str(&lower_words(lower)),
            (None, Some(upper)) => out.write_str(&upper_words(upper)),
            (Some(lower), Some(upper)) if lower.inclusive && upper.inclusive => {
                write!(out, "{} to {}", lower.quantity, upper.quantity)
            }
            (Some(lower), Some(upper)) => write!(out, "{}, {}", lower_words(lower), upper_words(upper)),
        }
    }
}

fn lower_words(limit: &Limit) -> String {
    let words = if limit.inclusive { "at least" } else { "above" };
    format!("{words} {}", limit.quantity)
}

fn upper_words(limit: &Limit) -> String {
    let words = if limit.inclusive { "at most" } else { "below" };
    format!("{words} {}", limit.quantity)
}
