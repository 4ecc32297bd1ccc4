//! The number itself: an exact fraction, or an approximate value that says so.

use num_rational::Ratio;
use num_traits::Signed;

/// A number: exact as long as it can be, else an `f64` that says so.
///
/// Readings, limits and unit factors are exact fractions of two 128-bit integers, so that a value exactly on
/// its limit is found to be on it. Roots, exponentials and angles in radians leave the exact numbers, and so
/// does a result that no longer fits. Arithmetic never fails and never wraps; division by zero gives `None`.
///
/// ```
/// use bayhand::quantity::Num;
///
/// let sum = Num::parse_decimal("0.1").unwrap() + Num::parse_decimal("0.2").unwrap();
/// assert_eq!(sum, Num::parse_decimal("0.3").unwrap());
/// ```
#[derive(Clone, Copy, Debug)]
pub enum Num {
    /// Exactly this fraction, in lowest terms with a positive denominator.
    Exact(Ratio<i128>),
    /// About this much.
    Approx(f64),
}

impl Num {
    /// Nothing.
    pub const ZERO: Self = Self::Exact(Ratio::new_raw(0, 1));
    /// One.
    pub const ONE: Self = Self::Exact(Ratio::new_raw(1, 1));

    /// An approximate number. What is too large for an `f64` stays at the largest one, and what is not a
    /// number at all becomes zero, so that every number has a place in the order.
    pub fn approx(value: f64) -> Self {
        if value.is_nan() {
            return Self::Approx(0.0);
        }
        Self::Approx(value.clamp(f64::MIN, f64::MAX))
    }

    /// The fraction of two whole numbers; `None` when the lower one is zero or the sign cannot be turned.
    pub fn ratio(numerator: i128, denominator: i128) -> Option<Self> {
        if denominator == 0 || numerator == i128::MIN || denominator == i128::MIN {
            return None;
        }
        Some(Self::Exact(Ratio::new(numerator, denominator)))
    }

    /// The fraction, where it is known exactly.
    pub fn exact(self) -> Option<Ratio<i128>> {
        match self {
            Self::Exact(ratio) => Some(ratio),
            Self::Approx(_) => None,
        }
    }

    /// Whether it is known exactly.
    pub fn is_exact(self) -> bool {
        self.exact().is_some()
    }

    /// The nearest `f64`, within two units of its last digit.
    #[expect(clippy::cast_precision_loss, reason = "an f64 is what is asked for")]
    pub fn to_f64(self) -> f64 {
        match self {
            Self::Exact(ratio) => *ratio.numer() as f64 / *ratio.denom() as f64,
            Self::Approx(value) => value,
        }
    }

    /// Whether it is zero.
    pub fn is_zero(self) -> bool {
        match self {
            Self::Exact(ratio) => *ratio.numer() == 0,
            Self::Approx(value) => value == 0.0,
        }
    }

    /// Whether it is below zero.
    pub fn is_negative(self) -> bool {
        match self {
            Self::Exact(ratio) => *ratio.numer() < 0,
            Self::Approx(value) => value < 0.0,
        }
    }

    /// Whether it is exactly a whole number.
    pub fn is_whole(self) -> bool {
        self.exact().is_some_and(|ratio| ratio.is_integer())
    }

    /// Without its sign.
    #[must_use]
    pub fn abs(self) -> Self {
        match self {
            Self::Exact(ratio) => Self::Exact(ratio.abs()),
            Self::Approx(value) => Self::Approx(value.abs()),
        }
    }
}

impl From<i64> for Num {
    fn from(value: i64) -> Self {
        Self::Exact(Ratio::from_integer(i128::from(value)))
    }
}
