//! A number as a person reads it: short, with as many digits as mean something.

use super::Num;

/// Significant digits of a number that has no short decimal form.
const DIGITS: i32 = 5;
/// An exact decimal with no more digits than this is shown in full.
const FULL_DIGITS: usize = 7;
/// With its leading zeros it may have this many.
const FULL_PLACES: usize = 11;
/// From here on whole numbers are shown with a power of ten.
const HUGE: i32 = 15;
/// Below this power of ten numbers are shown with a power of ten.
const TINY: i32 = -6;

impl Num {
    /// For reading: a short exact decimal in full, anything else with five significant digits; the digits
    /// before the point are never dropped.
    ///
    /// ```
    /// use bayhand::quantity::Num;
    ///
    /// assert_eq!(Num::ratio(55004, 1000).unwrap().shown(), "55.004");
    /// assert_eq!(Num::ratio(2, 3).unwrap().shown(), "0.66667");
    /// ```
    pub fn shown(self) -> String {
        self.short_decimal().unwrap_or_else(|| self.shown_with(DIGITS))
    }

    /// Every digit of it, if it is exact and there are few.
    pub(in crate::quantity) fn short_decimal(self) -> Option<String> {
        self.full_decimal().filter(|full| is_short(full))
    }

    /// For reading, with this many significant digits (at least one), trailing zeros dropped.
    pub fn shown_with(self, digits: i32) -> String {
        if self.is_zero() {
            return "0".to_owned();
        }
        let magnitude = self.magnitude();
        if !(TINY..HUGE).contains(&magnitude) {
            return format!("{:.*e}", usize::try_from(digits - 1).unwrap_or(0), self.to_f64());
        }
        let places = u32::try_from(digits - 1 - magnitude).unwrap_or(0);
        trimmed(self.with_places(places))
    }

    /// With exactly this many decimal places, halves rounded away from zero.
    pub fn with_places(self, places: u32) -> String {
        let wanted = usize::try_from(places).unwrap_or(0);
        let Some((whole, scale)) = self.scaled_to_whole(places) else {
            return format!("{:.wanted$}", self.to_f64());
        };
        let sign = if whole < 0 { "-" } else { "" };
        let (before, after) =
            (whole.unsigned_abs() / scale.unsigned_abs(), whole.unsigned_abs() % scale.unsigned_abs());
        if wanted == 0 { format!("{sign}{before}") } else { format!("{sign}{before}.{after:0wanted$}") }
    }

    /// Every digit of it, if it is exact and the digits end.
    pub(super) fn full_decimal(self) -> Option<String> {
        let ratio = self.exact()?;
        let places = decimal_places(*ratio.denom())?;
        let (_, scale) = self.scaled_to_whole(places)?;
        (scale % ratio.denom() == 0).then(|| self.with_places(places))
    }

    /// The whole number of steps of ten to the minus `places`, and that power of ten; by long division, so that
    /// long fractions do not overflow.
    pub(super) fn scaled_to_whole(self, places: u32) -> Option<(i128, i128)> {
        let ratio = self.exact()?;
        let denominator = ratio.denom().unsigned_abs();
        let numerator = ratio.numer().unsigned_abs();
        let (mut whole, mut rest) = (numerator / denominator, numerator % denominator);
        for _ in 0..places {
            let digits = rest.checked_mul(10)?;
            whole = whole.checked_mul(10)?.checked_add(digits / denominator)?;
            rest = digits % denominator;
        }
        if rest >= denominator - rest {
            whole = whole.checked_add(1)?;
        }
        let whole = i128::try_from(whole).ok()?;
        Some((whole * ratio.numer().signum(), 10_i128.checked_pow(places)?))
    }

    /// The power of ten of its first digit.
    #[expect(clippy::cast_possible_truncation, reason = "the logarithm of an f64 is within 400")]
    fn magnitude(self) -> i32 {
        libm::floor(libm::log10(libm::fabs(self.to_f64()))) as i32
    }
}

/// How many decimal places a fraction with this denominator needs; `None` when the digits never end.
fn decimal_places(mut denominator: i128) -> Option<u32> {
    let twos = denominator.trailing_zeros();
    denominator >>= twos;
    let mut fives = 0;
    while denominator % 5 == 0 {
        denominator /= 5;
        fives += 1;
    }
    (denominator == 1).then_some(twos.max(fives))
}

fn is_short(decimal: &str) -> bool {
    let digits = decimal.bytes().filter(u8::is_ascii_digit);
    digits.clone().skip_while(|digit| *digit == b'0').count() <= FULL_DIGITS && digits.count() <= FULL_PLACES
}

/// Without the zeros that end the decimals.
fn trimmed(decimal: String) -> String {
    if decimal.contains('.') {
        decimal.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        decimal
    }
}
