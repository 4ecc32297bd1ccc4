//! Dimensions multiplied, divided and raised, refused where their powers grow past what is kept.

use crate::quantity::Dimension;

/// Dimensions joined without loss: their powers are bounded, and beyond the bound nothing is true any more.
pub(super) trait Joined: Sized {
    fn mul_of(self, other: Self) -> Option<Self>;
    fn div_of(self, other: Self) -> Option<Self>;
    fn power_of(self, exponent: i64) -> Option<Self>;
}

impl Joined for Dimension {
    fn mul_of(self, other: Self) -> Option<Self> {
        let product = self * other;
        (product / other == self && product / self == other).then_some(product)
    }

    fn div_of(self, other: Self) -> Option<Self> {
        let quotient = self / other;
        (quotient * other == self).then_some(quotient)
    }

    fn power_of(self, exponent: i64) -> Option<Self> {
        let step = if exponent < 0 { Self::div_of } else { Self::mul_of };
        (0..exponent.abs()).try_fold(Self::NONE, |product, _| step(product, self))
    }
}
