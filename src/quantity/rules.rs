//! Arithmetic of quantities, and what may be done with a temperature.

use super::{Kind, Mismatch, Num, Quantity};

/// Arithmetic of quantities. Two temperatures have a difference; a temperature and a difference have a sum,
/// which is a temperature; nothing else can be done with a temperature.
impl Quantity {
    /// The sum, in the unit of the first, or of the temperature among them.
    ///
    /// ```
    /// use bayhand::quantity::parse_literal;
    ///
    /// let sum = parse_literal("20 °C").unwrap().plus(&parse_literal("9 Δ°F").unwrap()).unwrap();
    /// assert_eq!(sum, parse_literal("25 °C").unwrap());
    /// ```
    pub fn plus(&self, other: &Self) -> Result<Self, Mismatch> {
        match (self.kind(), other.kind()) {
            (Kind::Point, Kind::Point) => Err(Mismatch::SumOfPoints),
            (Kind::Difference, Kind::Point) => other.plus(self),
            (_, Kind::Difference) => {
                let added = other.in_unit(&self.unit.as_difference())?;
                Ok(Self::new(self.number + added.number, self.unit.clone()))
            }
        }
    }

    /// The difference, in the unit of the first; of two temperatures it is a temperature difference.
    pub fn minus(&self, other: &Self) -> Result<Self, Mismatch> {
        match (self.kind(), other.kind()) {
            (Kind::Difference, Kind::Point) => Err(Mismatch::DifferenceLessPoint),
            (Kind::Point, Kind::Point) => {
                let taken = other.in_unit(&self.unit)?;
                Ok(Self::new(self.number - taken.number, self.unit.as_difference()))
            }
            (_, Kind::Difference) => self.plus(&other.negative()),
        }
    }

    /// The product; its unit is the product of the units.
    pub fn times(&self, other: &Self) -> Result<Self, Mismatch> {
        self.amount()?;
        other.amount()?;
        Ok(Self::new(self.number * other.number, self.unit.times(&other.unit)))
    }

    /// The quotient, `None` when the divisor is zero; its unit is the quotient of the units.
    pub fn per(&self, divisor: &Self) -> Result<Option<Self>, Mismatch> {
        self.amount()?;
        divisor.amount()?;
        let number = self.number.checked_div(divisor.number);
        Ok(number.map(|number| Self::new(number, self.unit.per(&divisor.unit))))
    }

    /// The power with a whole exponent, `None` for zero to a negative one.
    pub fn powi(&self, exponent: i32) -> Result<Option<Self>, Mismatch> {
        self.amount()?;
        let number = self.number.powi(exponent);
        Ok(number.map(|number| Self::new(number, self.unit.powi(exponent))))
    }

    /// So many times as much.
    pub fn scaled(&self, factor: Num) -> Result<Self, Mismatch> {
        self.amount()?;
        Ok(Self::new(self.number * factor, self.unit.clone()))
    }

    fn amount(&self) -> Result<(), Mismatch> {
        match self.kind() {
            Kind::Difference => Ok(()),
            Kind::Point => Err(Mismatch::MultipleOfPoint),
        }
    }

    fn negative(&self) -> Self {
        Self::new(-self.number, self.unit.clone())
    }
}
