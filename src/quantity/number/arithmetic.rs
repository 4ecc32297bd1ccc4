//! Arithmetic of numbers: exact as long as the result fits, else approximate.

use std::ops::{Add, Mul, Neg, Sub};

use num_rational::Ratio;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub};

use super::Num;
use super::small::Small;

/// The exact result if both sides are exact and it fits, else the approximate one.
macro_rules! operator {
    ($operator:ident, $method:ident, $small:expr, $checked:ident, $symbol:tt) => {
        impl $operator for Num {
            type Output = Self;

            fn $method(self, other: Self) -> Self {
                match (self, other) {
                    (Self::Exact(left), Self::Exact(right)) => match both_small(&left, &right) {
                        Some((left, right)) => Some(Self::Exact($small(left, right))),
                        None => fitting(left.$checked(&right)),
                    },
                    _ => None,
                }
                .unwrap_or_else(|| Self::approx(self.to_f64() $symbol other.to_f64()))
            }
        }
    };
}

operator!(Add, add, Small::plus, checked_add, +);
operator!(Sub, sub, |left: Small, right: Small| left.plus(right.turned()), checked_sub, -);
operator!(Mul, mul, Small::times, checked_mul, *);

fn both_small(left: &Ratio<i128>, right: &Ratio<i128>) -> Option<(Small, Small)> {
    Some((Small::of(left)?, Small::of(right)?))
}

impl Neg for Num {
    type Output = Self;

    fn neg(self) -> Self {
        match self {
            Self::Exact(ratio) => Self::Exact(-ratio),
            Self::Approx(value) => Self::Approx(-value),
        }
    }
}

impl Num {
    /// The quotient; `None` when the divisor is zero.
    #[must_use]
    pub fn checked_div(self, divisor: Self) -> Option<Self> {
        if divisor.is_zero() {
            return None;
        }
        let exact = match (self, divisor) {
            (Self::Exact(left), Self::Exact(right)) => {
                let small = both_small(&left, &right);
                match small.and_then(|(left, right)| Some(left.times(right.upside_down()?))) {
                    Some(quotient) => Some(Self::Exact(quotient)),
                    None => fitting(left.checked_div(&right)),
                }
            }
            _ => None,
        };
        Some(exact.unwrap_or_else(|| Self::approx(self.to_f64() / divisor.to_f64())))
    }

    /// The power with a whole exponent; `None` for zero to a negative one.
    #[must_use]
    pub fn powi(self, exponent: i32) -> Option<Self> {
        let mut result = Self::ONE;
        let mut square = self;
        let mut left = exponent.unsigned_abs();
        while left > 0 {
            if left % 2 == 1 {
                result = result * square;
            }
            left /= 2;
            if left > 0 {
                square = square * square;
            }
        }
        if exponent < 0 { Self::ONE.checked_div(result) } else { Some(result) }
    }

    /// The square root: exact for the square of a fraction, else through libm, which gives the same bits on
    /// every machine. `None` below zero.
    #[must_use]
    pub fn sqrt(self) -> Option<Self> {
        if self.is_negative() {
            return None;
        }
        let exact = self
            .exact()
            .and_then(|ratio| Self::ratio(whole_root(*ratio.numer())?, whole_root(*ratio.denom())?));
        Some(exact.unwrap_or_else(|| Self::approx(libm::sqrt(self.to_f64()))))
    }
}

/// A fraction whose sign can be turned, which the smallest 128-bit integer cannot.
fn fitting(ratio: Option<Ratio<i128>>) -> Option<Num> {
    ratio.filter(|ratio| *ratio.numer() != i128::MIN).map(Num::Exact)
}

/// The root of a perfect square.
fn whole_root(square: i128) -> Option<i128> {
    let root = square.checked_isqrt()?;
    (root * root == square).then_some(root)
}
