//! A number as text: read from plain decimals, and kept so that it reads back to exactly the same.

use super::Num;

/// More digits than any instrument shows, few enough for the exact numbers.
const MOST_DIGITS: usize = 36;
/// Larger powers of ten do not fit the exact numbers.
const LARGEST_EXPONENT: u32 = 36;

impl Num {
    /// Reads a plain decimal number with a point, exactly: `12.5`, `-0.25`, `.5`, `1e-3`.
    ///
    /// `None` when it is none, or does not fit the exact numbers (about 36 digits).
    ///
    /// ```
    /// use bayhand::quantity::Num;
    ///
    /// assert_eq!(Num::parse_decimal("1e-3"), Num::ratio(1, 1000));
    /// assert_eq!(Num::parse_decimal("1,5"), None);
    /// ```
    pub fn parse_decimal(text: &str) -> Option<Self> {
        let (mantissa, exponent) = match text.split_once(['e', 'E']) {
            Some((mantissa, exponent)) => (mantissa, parse_exponent(exponent)?),
            None => (text, 0),
        };
        let (negative, digits) = split_sign(mantissa);
        let (whole, decimals) = digits.split_once('.').unwrap_or((digits, ""));
        if digits.ends_with('.') || !all_digits(whole) || !all_digits(decimals) {
            return None;
        }
        let number = parse_whole(&format!("{whole}{decimals}"))?;
        let places = i32::try_from(decimals.len()).ok()?;
        let number = shifted(number, exponent.checked_sub(places)?)?;
        Some(if negative { -number } else { number })
    }

    /// The number as text that reads back to exactly the same: `35`, `12.7`, `1/3`, and with a wave in front
    /// when it is approximate, `~0.5235987755982988`.
    pub fn to_exact_text(self) -> String {
        match self {
            Self::Exact(ratio) if ratio.is_integer() => ratio.numer().to_string(),
            Self::Exact(ratio) => {
                self.full_decimal().unwrap_or_else(|| format!("{}/{}", ratio.numer(), ratio.denom()))
            }
            Self::Approx(value) => format!("~{value:?}"),
        }
    }

    /// Reads what [`Num::to_exact_text`] wrote.
    pub fn from_exact_text(text: &str) -> Option<Self> {
        if let Some(value) = text.strip_prefix('~') {
            return value.parse().ok().filter(|value: &f64| value.is_finite()).map(Self::Approx);
        }
        match text.split_once('/') {
            Some((numerator, denominator)) => {
                Self::ratio(numerator.parse().ok()?, denominator.parse().ok().filter(|whole| *whole > 0)?)
            }
            None => text
                .parse()
                .ok()
                .and_then(|whole| Self::ratio(whole, 1))
                .or_else(|| Self::parse_decimal(text)),
        }
    }
}

fn split_sign(text: &str) -> (bool, &str) {
    match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    }
}

fn all_digits(text: &str) -> bool {
    text.bytes().all(|byte| byte.is_ascii_digit())
}

fn parse_whole(digits: &str) -> Option<Num> {
    let digits = match digits.trim_start_matches('0') {
        "" if digits.is_empty() => return None,
        "" => "0",
        rest => rest,
    };
    if digits.len() > MOST_DIGITS {
        return None;
    }
    digits.parse().ok().and_then(|whole| Num::ratio(whole, 1))
}

fn parse_exponent(text: &str) -> Option<i32> {
    let (negative, digits) = split_sign(text);
    if digits.is_empty() || digits.len() > 3 || !all_digits(digits) {
        return None;
    }
    let exponent: i32 = digits.parse().ok()?;
    Some(if negative { -exponent } else { exponent })
}

/// Times ten to the `places`, while it stays exact.
fn shifted(number: Num, places: i32) -> Option<Num> {
    if number.is_zero() {
        return Some(number);
    }
    if places.unsigned_abs() > LARGEST_EXPONENT {
        return None;
    }
    let shifted = number * Num::from(10).powi(places)?;
    shifted.is_exact().then_some(shifted)
}
