//! A number in a unit: carried into other units and compared exactly.

use std::cmp::Ordering;
use std::fmt;

use super::{Kind, Num, Unit};

/// A number in a unit, as it was written or computed.
///
/// Two are `==` when they are written alike; [`Quantity::compare`] tells which is larger whatever the units.
///
/// ```
/// use bayhand::quantity::parse_literal;
///
/// let inch = parse_literal("1 in").unwrap();
/// let millimetres = parse_literal("25.4 mm").unwrap();
/// assert_eq!(inch.compare(&millimetres), Ok(std::cmp::Ordering::Equal));
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Quantity {
    /// How many.
    pub number: Num,
    /// Of what.
    pub unit: Unit,
}

impl Quantity {
    /// This many of that.
    pub fn new(number: impl Into<Num>, unit: Unit) -> Self {
        Self { number: number.into(), unit }
    }

    /// In coherent base units; a temperature counts from absolute zero, in kelvins.
    pub fn base(&self) -> Num {
        match self.unit.zero() {
            Some(zero) => (self.number + zero) * self.unit.factor(),
            None => self.number * self.unit.factor(),
        }
    }

    /// The quantity of so many coherent base units, given in `unit`: the reverse of [`Quantity::base`].
    pub fn from_base(base: Num, unit: &Unit) -> Self {
        // No unit has a factor of zero.
        let number = base.checked_div(unit.factor()).unwrap_or(base);
        Self::new(unit.zero().map_or(number, |zero| number - zero), unit.clone())
    }

    /// Whether it is a temperature on a scale or an amount.
    pub fn kind(&self) -> Kind {
        self.unit.kind()
    }

    /// The same in another unit, exactly where the factors are exact.
    pub fn in_unit(&self, unit: &Unit) -> Result<Self, Mismatch> {
        self.fitting(unit)?;
        if unit.factor() == self.unit.factor() && unit.zero() == self.unit.zero() {
            return Ok(Self::new(self.number, unit.clone()));
        }
        let from_zero = self.number + self.unit.zero().unwrap_or(Num::ZERO);
        // No unit has a factor of zero.
        let factor = self.unit.factor().checked_div(unit.factor()).unwrap_or(Num::ONE);
        Ok(Self::new(from_zero * factor - unit.zero().unwrap_or(Num::ZERO), unit.clone()))
    }

    /// Which is larger, exactly, whatever the units.
    pub fn compare(&self, other: &Self) -> Result<Ordering, Mismatch> {
        self.fitting(&other.unit)?;
        if self.unit == other.unit {
            return Ok(self.number.cmp(&other.number));
        }
        Ok(self.base().cmp(&other.base()))
    }

    fn fitting(&self, unit: &Unit) -> Result<(), Mismatch> {
        if self.unit.dimension() != unit.dimension() {
            return Err(Mismatch::Dimension { left: self.unit.clone(), right: unit.clone() });
        }
        if self.unit.kind() != unit.kind() {
            return Err(Mismatch::Kind { left: self.unit.clone(), right: unit.clone() });
        }
        Ok(())
    }
}

impl From<Num> for Quantity {
    fn from(number: Num) -> Self {
        Self::new(number, Unit::one())
    }
}

/// Two quantities that do not go together in this way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Mismatch {
    /// They measure different things.
    Dimension {
        /// The unit of the first.
        left: Unit,
        /// The unit of the second.
        right: Unit,
    },
    /// One is a temperature, the other a temperature difference.
    Kind {
        /// The unit of the first.
        left: Unit,
        /// The unit of the second.
        right: Unit,
    },
    /// Two temperatures cannot be added.
    SumOfPoints,
    /// A temperature cannot be taken from a difference.
    DifferenceLessPoint,
    /// A temperature cannot be multiplied, divided or raised to a power.
    MultipleOfPoint,
}

impl fmt::Display for Mismatch {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Dimension { left, right } | Self::Kind { left, right } => write!(
                out,
                "{} and {} do not go together; give both in units of the same thing",
                described(left),
                described(right)
            ),
            Self::SumOfPoints => out.write_str(
                "two temperatures cannot be added; add a difference, in `K` or `Δ°C`, or take the mean of them",
            ),
            Self::DifferenceLessPoint => {
                out.write_str("a temperature cannot be taken from a temperature difference; turn them round")
            }
            Self::MultipleOfPoint => out.write_str(
                "a temperature cannot be multiplied or divided; take its difference from another one first",
            ),
        }
    }
}

impl std::error::Error for Mismatch {}

fn described(unit: &Unit) -> String {
    if unit.symbol().is_empty() {
        return format!("a {}", unit.measures());
    }
    format!("`{}` ({})", unit.symbol(), unit.measures())
}

/// As it is kept on disk, read back to exactly the same.
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
        let unit = if unit == Unit::date().symbol() { Unit::date() } else { Unit::parse(unit).ok()? };
        Some(Self::new(Num::from_exact_text(number)?, unit))
    }
}
