//! A quantity as files and formulas write it: a point before the decimals, then the unit.

use super::EntryProblem;
use super::number::{checked, exponent_length, fraction, sign};
use super::trouble::Trouble;
use crate::quantity::{Num, Quantity, Unit};

const LONGEST: usize = 100;
const FORM: Trouble =
    Trouble::Why("write digits with a decimal point, then the unit, like `12.5 mm` or `5 1/2 qt`");

/// Reads a quantity as files and formulas write it: a number with a point, never a comma, or a fraction, then
/// the unit; without one it is a plain number. `1 in`, `5 1/2 qt`, `3/16 in`, `-40 °C`, `4 %`, `1e3 Pa`.
///
/// ```
/// use bayhand::quantity::parse_literal;
///
/// assert_eq!(parse_literal("5 1/2 qt").unwrap().to_string(), "5.5 qt");
/// assert!(parse_literal("5,5 qt").is_err());
/// ```
pub fn parse_literal(text: &str) -> Result<Quantity, EntryProblem> {
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(EntryProblem::Empty);
    }
    if trimmed.len() > LONGEST {
        return Err(EntryProblem::TooLarge);
    }
    let plain = trimmed.replacen('−', "-", 1);
    let (number, unit) = number(&plain).map_err(|trouble| trouble.with(text))?;
    let unit = Unit::parse(unit).map_err(EntryProblem::UnknownUnit)?;
    Ok(Quantity::new(number, unit))
}

fn number(text: &str) -> Result<(Num, &str), Trouble> {
    let (negative, body) = sign(text);
    let (number, rest) = fraction(body).unwrap_or_else(|| decimal(body))?;
    let rest = rest.trim_start();
    if rest.starts_with(|char: char| matches!(char, '0'..='9' | '.' | ',')) && !rest.starts_with("1/") {
        return Err(FORM);
    }
    Ok((if negative { -number } else { number }, rest))
}

fn decimal(text: &str) -> Result<(Num, &str), Trouble> {
    let end = text.find(|char: char| !matches!(char, '0'..='9' | '.')).unwrap_or(text.len());
    let (digits, rest) = text.split_at(end);
    if !digits.contains(|char: char| char.is_ascii_digit())
        || digits.ends_with('.')
        || digits.matches('.').count() > 1
    {
        return Err(FORM);
    }
    let (exponent, rest) = rest.split_at(exponent_length(rest));
    Ok((checked(&format!("{digits}{exponent}"))?, rest))
}
