//! Fractions whose terms fit in 64 bits, which nearly all are: nothing can overflow, and a common divisor is found among
//! machine words. Each result is the fraction that the general arithmetic gives, in lowest terms.

use std::cmp::Ordering;

use num_integer::gcd;
use num_rational::Ratio;

/// A fraction in lowest terms, both of which fit in 64 bits; the lower one is above zero.
#[derive(Clone, Copy)]
pub(super) struct Small {
    above: i64,
    below: i64,
}

impl Small {
    /// The same fraction, where it is so small.
    pub(super) fn of(ratio: &Ratio<i128>) -> Option<Self> {
        let (above, below) = (i64::try_from(*ratio.numer()).ok()?, i64::try_from(*ratio.denom()).ok()?);
        (above != i64::MIN && below > 0).then_some(Self { above, below })
    }

    fn wide(self) -> (i128, i128) {
        (i128::from(self.above), i128::from(self.below))
    }

    pub(super) fn plus(self, other: Self) -> Ratio<i128> {
        let ((a, b), (c, d)) = (self.wide(), other.wide());
        if b == d && b == 1 {
            return Ratio::new_raw(a + c, 1);
        }
        // Only what divides both lower terms can divide the sum over their product.
        let common = divisor(self.below, other.below);
        let (b, shared) = (b / i128::from(common), i128::from(common));
        let sum = a * (d / shared) + c * b;
        let left = gcd_of(sum, common);
        Ratio::new_raw(sum / left, b * (d / left))
    }

    pub(super) fn times(self, other: Self) -> Ratio<i128> {
        let (one, two) = (divisor(self.above, other.below), divisor(other.above, self.below));
        let above = i128::from(self.above / one) * i128::from(other.above / two);
        Ratio::new_raw(above, i128::from(self.below / two) * i128::from(other.below / one))
    }

    /// One over it; none of zero.
    pub(super) fn upside_down(self) -> Option<Self> {
        let (above, below) = (self.below * self.above.signum(), self.above.checked_abs()?);
        (below != 0).then_some(Self { above, below })
    }

    pub(super) fn turned(self) -> Self {
        Self { above: -self.above, ..self }
    }

    pub(super) fn against(self, other: Self) -> Ordering {
        let ((a, b), (c, d)) = (self.wide(), other.wide());
        (a * d).cmp(&(c * b))
    }
}

/// The largest number that divides both, of which the second is not zero.
fn divisor(one: i64, other: i64) -> i64 {
    if other == 1 {
        return 1;
    }
    // Neither is the smallest number there is, so that what divides them fits.
    i64::try_from(gcd(one.unsigned_abs(), other.unsigned_abs())).unwrap_or(1)
}

/// The same with a sum of two products.
fn gcd_of(sum: i128, other: i64) -> i128 {
    if other == 1 {
        return 1;
    }
    let rest = sum % i128::from(other);
    i64::try_from(rest).map_or(1, |rest| i128::from(divisor(rest, other)))
}
