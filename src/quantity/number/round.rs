//! Rounding to decimal places, and to whole numbers up and down.

use num_rational::Ratio;

use super::Num;

impl Num {
    /// Rounded to this many decimal places, halves away from zero.
    #[must_use]
    pub fn rounded(self, places: u32) -> Self {
        match self {
            // A number with so many digits that they do not fit needs no rounding.
            Self::Exact(_) => self
                .scaled_to_whole(places)
                .and_then(|(whole, scale)| Self::ratio(whole, scale))
                .unwrap_or(self),
            Self::Approx(value) => {
                let scale = libm::exp10(f64::from(places.min(300)));
                let scaled = libm::round(value * scale);
                if scaled.is_finite() { Self::approx(scaled / scale) } else { self }
            }
        }
    }

    /// The largest whole number that is not above it.
    #[must_use]
    pub fn floor(self) -> Self {
        match self {
            Self::Exact(ratio) => Self::Exact(Ratio::from_integer(ratio.numer().div_euclid(*ratio.denom()))),
            Self::Approx(value) => Self::approx(libm::floor(value)),
        }
    }

    /// The smallest whole number that is not below it: how many packs to buy.
    #[must_use]
    pub fn ceil(self) -> Self {
        -(-self).floor()
    }
}
