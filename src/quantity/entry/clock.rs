//! Times typed with colons: `1:30`, `1:30:00`.

use super::number::checked;
use super::trouble::Trouble;
use crate::quantity::{Num, Quantity, Unit};

const FORM: Trouble = Trouble::Why(
    "a time is written `1:30 min` (minutes and seconds), `1:30 h` (hours and minutes) or `1:02:30`, with two digits after each colon",
);

/// A time written with colons, in seconds; `None` when there is no colon.
///
/// Three numbers are hours, minutes and seconds. Two are minutes and seconds, or hours and minutes where the
/// unit behind them says hours, or without a unit the asked one does.
pub(super) fn clock(text: &str, asked: &Unit) -> Option<Result<Quantity, Trouble>> {
    text.contains(':').then(|| read(text, asked))
}

fn read(text: &str, asked: &Unit) -> Result<Quantity, Trouble> {
    let end = text.find(|char: char| !matches!(char, '0'..='9' | ':' | '.' | ',')).unwrap_or(text.len());
    let (fields, unit) = text.split_at(end);
    let fields: Vec<&str> = fields.split(':').collect();
    let first_unit = first_unit(fields.len(), unit.trim(), asked)?;
    let mut total = Num::ZERO;
    let mut place = first_unit;
    for (position, field) in fields.iter().enumerate() {
        total = total + read_field(field, position, fields.len())? * place;
        place = place.checked_div(Num::from(60)).ok_or(FORM)?;
    }
    Ok(Quantity::new(total, Unit::parse("s").map_err(|_| FORM)?))
}

/// How many seconds one of the first number is.
fn first_unit(fields: usize, unit: &str, asked: &Unit) -> Result<Num, Trouble> {
    let [minute, hour] = [60, 3600].map(Num::from);
    let unit = Unit::parse(unit).map_err(|_| FORM)?;
    match (fields, unit.symbol()) {
        (2 | 3, "h") | (3, "") => Ok(hour),
        (2, "min") => Ok(minute),
        (2, "") => Ok(if asked.factor() >= hour { hour } else { minute }),
        _ => Err(FORM),
    }
}

/// Whole numbers, two digits below sixty after a colon; the last one may have decimals.
fn read_field(field: &str, position: usize, fields: usize) -> Result<Num, Trouble> {
    let (whole, decimals) = field.split_once(['.', ',']).unwrap_or((field, "0"));
    let all_digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let has_decimals = whole.len() < field.len();
    if !all_digits(whole) || !all_digits(decimals) || (has_decimals && position + 1 < fields) {
        return Err(FORM);
    }
    let number = checked(&format!("{whole}.{decimals}"))?;
    if position > 0 && (whole.len() != 2 || number >= Num::from(60)) {
        return Err(FORM);
    }
    Ok(number)
}
