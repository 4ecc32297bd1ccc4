//! The number at the front of what was typed: its sign, a fraction, a decimal, a power of ten.

use super::separators::with_point;
use super::trouble::Trouble;
use crate::quantity::Num;

/// More digits than any instrument shows; with them every conversion is still exact.
const MOST_DIGITS: usize = 18;

/// The number at the front of a text and what stands behind it: `5 1/2 qt`, `1.234,5 kPa`, `-40 °C`.
pub(super) fn leading(text: &str) -> Result<(Num, &str), Trouble> {
    let (negative, body) = sign(text);
    let (number, rest) = match fraction(body) {
        Some(found) => found?,
        None => decimal(body).map_err(|trouble| if negative { trouble.negative() } else { trouble })?,
    };
    Ok((if negative { -number } else { number }, rest))
}

/// Whether there is a minus in front, and what stands behind the sign.
pub(super) fn sign(text: &str) -> (bool, &str) {
    match text.strip_prefix('-') {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
    }
}

/// `3/16`, `5 1/2` or `5-1/2` at the front of a text; `None` when no fraction stands there.
pub(super) fn fraction(text: &str) -> Option<Result<(Num, &str), Trouble>> {
    let (first, rest) = digits(text)?;
    if let Some((below, rest)) = rest.strip_prefix('/').and_then(digits) {
        return Some(whole_and_part("0", first, below).map(|number| (number, rest)));
    }
    let (above, rest) = digits(rest.strip_prefix([' ', '-'])?)?;
    let (below, rest) = digits(rest.strip_prefix('/')?)?;
    let proper = above.len() < below.len() || (above.len() == below.len() && above < below);
    if !proper {
        return Some(Err(Trouble::Why("the fraction after a whole number must be smaller than one")));
    }
    Some(whole_and_part(first, above, below).map(|number| (number, rest)))
}

fn whole_and_part(whole: &str, above: &str, below: &str) -> Result<Num, Trouble> {
    let [whole, above, below] = [whole, above, below].map(|digits| digits.parse::<i64>().map(Num::from));
    let (Ok(whole), Ok(above), Ok(below)) = (whole, above, below) else {
        return Err(Trouble::TooLarge);
    };
    let part = above.checked_div(below).ok_or(Trouble::Why("nothing can be divided by zero"))?;
    Ok(whole + part)
}

/// The digits at the front of a text, at least one, and the rest.
fn digits(text: &str) -> Option<(&str, &str)> {
    let end = text.find(|char: char| !char.is_ascii_digit()).unwrap_or(text.len());
    (end > 0).then(|| text.split_at(end))
}

fn decimal(text: &str) -> Result<(Num, &str), Trouble> {
    let (run, rest) = text.split_at(run_length(text));
    if !run.contains(|char: char| char.is_ascii_digit()) {
        return Err(Trouble::Why(
            "type digits, then the unit if it is another one, like `12.5` or `12.5 mm`",
        ));
    }
    let (exponent, rest) = rest.split_at(exponent_length(rest));
    let plain = with_point(run)?;
    let number = checked(&format!("{plain}{exponent}"))?;
    Ok((number, rest))
}

/// A plain decimal number that is not too long.
pub(super) fn checked(plain: &str) -> Result<Num, Trouble> {
    let mantissa = plain.split(['e', 'E']).next().unwrap_or(plain);
    if mantissa.bytes().filter(u8::is_ascii_digit).count() > MOST_DIGITS {
        return Err(Trouble::TooLarge);
    }
    Num::parse_decimal(plain).ok_or(Trouble::TooLarge)
}

/// How far digits, points and commas go, and blanks before exactly three digits.
fn run_length(text: &str) -> usize {
    let bytes = text.as_bytes();
    let mut end = 0;
    while let Some(byte) = bytes.get(end) {
        let goes_on = match byte {
            b'0'..=b'9' | b'.' | b',' => true,
            b' ' => end > 0 && bytes.get(end + 1..).is_some_and(starts_group),
            _ => false,
        };
        if !goes_on {
            break;
        }
        end += 1;
    }
    end
}

/// Exactly three digits, and not the upper part of a fraction.
fn starts_group(bytes: &[u8]) -> bool {
    let digits = bytes.iter().take_while(|byte| byte.is_ascii_digit()).count();
    digits == 3 && bytes.get(3) != Some(&b'/')
}

/// How long the power of ten at the front of a text is: `e3`, `E-3`.
pub(super) fn exponent_length(text: &str) -> usize {
    let Some(after) = text.strip_prefix(['e', 'E']) else {
        return 0;
    };
    let digits = after.strip_prefix(['-', '+']).unwrap_or(after);
    let count = digits.bytes().take_while(u8::is_ascii_digit).count();
    if count == 0 { 0 } else { text.len() - digits.len() + count }
}
