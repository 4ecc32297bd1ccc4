//! A quantity as it is kept on disk, read back to exactly the same.

use super::{Num, Quantity, Unit};

impl Quantity {
    /// As it is kept on disk: the exact number and the symbol of the unit, `1/3 qt`, `43 Δ°F`, `~0.5 rad`.
    pub fn to_exact_text(&self) -> String {
        format!("{} {}", self.number.to_exact_text(), self.unit.symbol()).trim_end().to_owned()
    }

    /// Reads what [`Quantity::to_exact_text`] wrote, to exactly the same; `None` for anything else.
    ///
    /// ```
    /// use bayhand::quantity::Quantity;
    ///
    /// let third = Quantity::from_exact_text("1/3 qt").unwrap();
    /// assert_eq!(third.to_exact_text(), "1/3 qt");
    /// ```
    pub fn from_exact_text(text: &str) -> Option<Self> {
        let (number, unit) = text.split_once(' ').unwrap_or((text, ""));
        Some(Self::new(Num::from_exact_text(number)?, Unit::parse(unit).ok()?))
    }
}
