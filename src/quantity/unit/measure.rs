//! The unit itself: its symbol, what it measures and how large it is.

use std::fmt;
use std::sync::{Arc, LazyLock};

use crate::quantity::{Dimension, Kind, Num};

/// A unit: what it measures and how large it is.
///
/// The coherent base units are metre, kilogram, second, ampere, kelvin, turn and the shop's currency. Cheap to
/// clone.
///
/// ```
/// use bayhand::quantity::{Num, Unit};
///
/// let inch = Unit::parse("in").unwrap();
/// assert_eq!(inch.factor(), Num::ratio(254, 10_000).unwrap());
/// assert_eq!(Unit::parse("ft-lb").unwrap().symbol(), "lbf·ft");
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unit(Arc<Measure>);

const SECONDS_IN_A_DAY: i64 = 86_400;

/// What makes a unit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Measure {
    pub symbol: String,
    pub dimension: Dimension,
    pub factor: Num,
    pub zero: Option<Num>,
}

impl From<Measure> for Unit {
    fn from(measure: Measure) -> Self {
        Self(Arc::new(measure))
    }
}

impl Unit {
    /// The unit of a plain number.
    pub fn one() -> Self {
        static ONE: LazyLock<Unit> = LazyLock::new(|| {
            let symbol = String::new();
            Unit::from(Measure { symbol, dimension: Dimension::NONE, factor: Num::ONE, zero: None })
        });
        ONE.clone()
    }

    /// Its symbol, which [`Unit::parse`] reads back to the same unit; empty for a plain number. A difference of
    /// temperatures is `Δ°C` here, so that it is not taken for a temperature.
    pub fn symbol(&self) -> &str {
        &self.0.symbol
    }

    /// What it measures.
    pub fn dimension(&self) -> Dimension {
        self.0.dimension
    }

    /// How many coherent base units one of it is.
    pub fn factor(&self) -> Num {
        self.0.factor
    }

    /// What to add to a temperature in this unit to count from absolute zero, in this unit; none for a unit
    /// that starts at zero anyway.
    pub fn zero(&self) -> Option<Num> {
        self.0.zero
    }

    /// Whether a quantity in this unit is a place on a scale or an amount. Only degrees Celsius and Fahrenheit
    /// standing alone are scales, and dates; a kelvin is a difference.
    pub fn kind(&self) -> Kind {
        if self.0.zero.is_some() { Kind::Point } else { Kind::Difference }
    }

    /// Whether a quantity in one of the two can be given in the other.
    pub fn is_of_the_kind_of(&self, other: &Self) -> bool {
        self.dimension() == other.dimension() && self.kind() == other.kind()
    }

    /// The unit of a date, which no number is typed with: days from 1970-01-01, as a place in time.
    pub fn date() -> Self {
        Self::from(Measure {
            symbol: "date".to_owned(),
            dimension: Dimension::TIME,
            factor: SECONDS_IN_A_DAY.into(),
            zero: Some(Num::ZERO),
        })
    }

    /// Whether it is the unit of a date.
    pub fn is_date(&self) -> bool {
        self.0.zero.is_some() && self.0.dimension == Dimension::TIME
    }

    /// The unit of a difference between two values in this unit: `Δ°C` of `°C`, days of dates, else the same.
    #[must_use]
    pub fn as_difference(&self) -> Self {
        if self.0.zero.is_none() {
            return self.clone();
        }
        if self.is_date() {
            return Self::from(Measure { symbol: "d".to_owned(), zero: None, ..self.measure() });
        }
        Self::from(Measure { symbol: format!("Δ{}", self.symbol()), zero: None, ..self.measure() })
    }

    pub(super) fn measure(&self) -> Measure {
        (*self.0).clone()
    }

    /// What it measures, as a person calls it.
    pub fn measures(&self) -> String {
        match self.kind() {
            Kind::Point if self.is_date() => "date".to_owned(),
            Kind::Difference if self.0.dimension == Dimension::TEMPERATURE => {
                "temperature difference".to_owned()
            }
            _ => self.0.dimension.name(),
        }
    }

    /// Whether a value in this unit can be given in the other: same dimension, same kind.
    pub fn fits(&self, other: &Self) -> bool {
        self.0.dimension == other.0.dimension && self.kind() == other.kind()
    }
}

/// For reading: the symbol. A difference in degrees Celsius is `Δ°C`, so that nobody takes it for a temperature.
impl fmt::Display for Unit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.symbol())
    }
}
