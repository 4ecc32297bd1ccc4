//! A number and its unit as they stand in a formula: `0.6`, `5 lbf·in`, `5 1/2 qt`, `3/16 in`, `25 %`, `1e3`; and dates.
//!
//! The unit follows its number directly or after one space and has no space inside. A slash, a dot or a hyphen
//! belongs to the unit only when what comes out is a unit: `2 L/min` is one literal, `2 L/took` divides.

use super::unit_text::{spaced_unit, stray_word, unit_after};
use crate::quantity::{Num, Quantity, Unit, looks_like_date, parse_date};

const DATE_LENGTH: usize = "2026-11-01".len();

/// What stands at the front of a text that begins with a digit.
pub(super) enum Literal {
    /// A number with or without a unit.
    Good { length: usize, quantity: Quantity },
    /// A date of a day that there is not.
    NoDay { length: usize },
    /// A number too large, too long or divided by zero.
    Unreadable { length: usize },
    /// A number and a word that is no unit.
    NoUnit { length: usize, unit: String, meant: Option<String> },
}

pub(super) fn read(text: &str) -> Literal {
    if looks_like_date(text) {
        let date = text.get(..DATE_LENGTH).and_then(parse_date);
        return date.map_or(Literal::NoDay { length: DATE_LENGTH }, |quantity| Literal::Good {
            length: DATE_LENGTH,
            quantity,
        });
    }
    if let Some(mixed) = mixed_number(text) {
        return with_unit(text, mixed);
    }
    if let Some(fraction) = fraction(text)
        && let Some((length, unit)) = unit_after(text, fraction.length)
    {
        return good(fraction.value, length, unit);
    }
    with_unit(text, decimal(text))
}

/// A number that was read: how long it is, and its value if it has one.
#[derive(Clone, Copy)]
struct Read {
    length: usize,
    value: Option<Num>,
}

fn good(value: Option<Num>, length: usize, unit: Unit) -> Literal {
    match value {
        Some(number) => Literal::Good { length, quantity: Quantity::new(number, unit) },
        None => Literal::Unreadable { length },
    }
}

fn with_unit(text: &str, number: Read) -> Literal {
    match unit_after(text, number.length) {
        Some((length, unit)) => good(number.value, length, unit),
        None => match spaced_unit(text, number.length) {
            Some((length, unit, meant)) => {
                Literal::NoUnit { length, unit: unit.to_owned(), meant: Some(meant.to_owned()) }
            }
            None => without_unit(text, number),
        },
    }
}

fn without_unit(text: &str, number: Read) -> Literal {
    match stray_word(text, number.length) {
        Some((length, unit)) => Literal::NoUnit {
            length,
            unit: unit.to_owned(),
            meant: Unit::parse(unit).err().and_then(|unknown| unknown.did_you_mean),
        },
        None => good(number.value, number.length, Unit::one()),
    }
}

/// `5 1/2`, `5½`, `½`.
fn mixed_number(text: &str) -> Option<Read> {
    let whole = digits(text);
    let after = text.get(whole..)?;
    if let Some((value, length)) = vulgar(after) {
        let value =
            if whole == 0 { Some(value) } else { number(text.get(..whole)?).map(|number| number + value) };
        return Some(Read { length: whole + length, value });
    }
    let part = fraction(after.strip_prefix(' ')?)?;
    let value = number(text.get(..whole)?).and_then(|whole| Some(whole + part.value?));
    Some(Read { length: whole + 1 + part.length, value })
}

/// `3/16`: digits, a slash, digits, and no space between.
fn fraction(text: &str) -> Option<Read> {
    let upper = digits(text);
    let lower_text = text.get(upper..)?.strip_prefix('/')?;
    let lower = digits(lower_text);
    if upper == 0 || lower == 0 || lower_text.get(lower..)?.starts_with(['.', '/']) {
        return None;
    }
    let value =
        number(text.get(..upper)?).and_then(|upper| upper.checked_div(number(lower_text.get(..lower)?)?));
    Some(Read { length: upper + 1 + lower, value })
}

fn vulgar(text: &str) -> Option<(Num, usize)> {
    const FRACTIONS: [(char, i128, i128); 9] = [
        ('½', 1, 2),
        ('¼', 1, 4),
        ('¾', 3, 4),
        ('⅓', 1, 3),
        ('⅔', 2, 3),
        ('⅛', 1, 8),
        ('⅜', 3, 8),
        ('⅝', 5, 8),
        ('⅞', 7, 8),
    ];
    let first = text.chars().next()?;
    let (sign, upper, lower) = FRACTIONS.iter().find(|(sign, ..)| *sign == first)?;
    Some((Num::ratio(*upper, *lower)?, sign.len_utf8()))
}

/// `12`, `12.5`, `1e3`, `2.5e-3`.
fn decimal(text: &str) -> Read {
    let mut length = digits(text);
    length += decimals(&text[length..]);
    length += exponent(&text[length..]);
    Read { length, value: number(&text[..length]) }
}

fn decimals(text: &str) -> usize {
    match text.strip_prefix('.').map(digits) {
        Some(places) if places > 0 => 1 + places,
        _ => 0,
    }
}

fn exponent(text: &str) -> usize {
    let Some(power) = text.strip_prefix(['e', 'E']) else {
        return 0;
    };
    let sign = usize::from(power.starts_with(['+', '-']));
    match digits(&power[sign..]) {
        0 => 0,
        places => 1 + sign + places,
    }
}

fn digits(text: &str) -> usize {
    text.bytes().take_while(u8::is_ascii_digit).count()
}

fn number(text: &str) -> Option<Num> {
    Num::parse_decimal(text)
}
