//! Which of two numbers is greater, whether they are exact or not.

use std::cmp::Ordering;

use num_rational::Ratio;

use super::Num;
use super::small::Small;

impl PartialEq for Num {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Num {}

impl PartialOrd for Num {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// Exact wherever both sides are fractions; an approximate number counts as exactly the fraction its bits
/// say. Only below about 1e-22, where such a fraction no longer fits, are both sides compared as `f64`.
impl Ord for Num {
    fn cmp(&self, other: &Self) -> Ordering {
        match (self, other) {
            (Self::Exact(left), Self::Exact(right)) => match (Small::of(left), Small::of(right)) {
                (Some(left), Some(right)) => left.against(right),
                _ => left.cmp(right),
            },
            (Self::Approx(left), Self::Approx(right)) => by_value(*left, *right),
            (Self::Exact(left), Self::Approx(right)) => mixed(*left, *right),
            (Self::Approx(left), Self::Exact(right)) => mixed(*right, *left).reverse(),
        }
    }
}

/// Both zeros are equal; what is not a number sorts last, so that the order is total.
fn by_value(left: f64, right: f64) -> Ordering {
    left.partial_cmp(&right).unwrap_or_else(|| left.total_cmp(&right))
}

fn mixed(left: Ratio<i128>, right: f64) -> Ordering {
    match fraction_of(right) {
        Some(right) => left.cmp(&right),
        None => by_value(Num::Exact(left).to_f64(), right),
    }
}

/// The fraction that the bits of an `f64` stand for.
fn fraction_of(value: f64) -> Option<Ratio<i128>> {
    if value == 0.0 {
        return Some(Ratio::from_integer(0));
    }
    if !value.is_finite() {
        return None;
    }
    let (fraction, exponent) = libm::frexp(value);
    #[expect(clippy::cast_possible_truncation, reason = "53 bits are a whole number once scaled by 2^53")]
    let digits = libm::scalbn(fraction, 53) as i128;
    scaled(digits, exponent - 53)
}

/// `digits` times two to the `power`, while it fits.
fn scaled(digits: i128, power: i32) -> Option<Ratio<i128>> {
    let zeros = digits.trailing_zeros();
    let digits = digits >> zeros;
    let power = power + i32::try_from(zeros).ok()?;
    let factor = 1_i128.checked_shl(power.unsigned_abs()).filter(|factor| *factor > 0)?;
    if power < 0 {
        Some(Ratio::new(digits, factor))
    } else {
        digits.checked_mul(factor).filter(|whole| *whole != i128::MIN).map(Ratio::from_integer)
    }
}
