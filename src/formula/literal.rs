//! A number and its unit as they stand in a formula: `0.6`, `5 lbf·in`, `5 1/2 qt`, `3/16 in`, `25 %`, `1e3`.
//!
//! The unit follows its number directly or after one space and has no space inside. A slash, a dot or a hyphen
//! belongs to the unit only when what comes out is a unit: `2 L/min` is one literal, `2 L/took` divides.

use super::token::is_word;
use crate::quantity::{Num, Quantity, Unit};

/// What stands at the front of a text that begins with a digit.
pub(super) enum Literal {
    /// A number with or without a unit.
    Good { length: usize, quantity: Quantity },
    /// A number too large, too long or divided by zero.
    Unreadable { length: usize },
    /// A number and a word that is no unit.
    NoUnit {
        length: usize,
        unit: String,
        meant: Option<String>,
    },
}

/// Longer than any unit that a person would write after a number.
const LONGEST_UNIT: usize = 48;

pub(super) fn read(text: &str) -> Literal {
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
        Some(number) => Literal::Good {
            length,
            quantity: Quantity::new(number, unit),
        },
        None => Literal::Unreadable { length },
    }
}

fn with_unit(text: &str, number: Read) -> Literal {
    match unit_after(text, number.length) {
        Some((length, unit)) => good(number.value, length, unit),
        None => match stray_word(text, number.length) {
            Some((length, unit)) => Literal::NoUnit {
                length,
                unit: unit.to_owned(),
                meant: Unit::parse(unit).err().and_then(|unknown| unknown.did_you_mean),
            },
            None => good(number.value, number.length, Unit::one()),
        },
    }
}

/// `5 1/2`, `5½`, `½`.
fn mixed_number(text: &str) -> Option<Read> {
    let whole = digits(text);
    let after = text.get(whole..)?;
    if let Some((value, length)) = vulgar(after) {
        let value = if whole == 0 {
            Some(value)
        } else {
            number(text.get(..whole)?).map(|number| number + value)
        };
        return Some(Read {
            length: whole + length,
            value,
        });
    }
    let part = fraction(after.strip_prefix(' ')?)?;
    let value = number(text.get(..whole)?).and_then(|whole| Some(whole + part.value?));
    Some(Read {
        length: whole + 1 + part.length,
        value,
    })
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
    Some(Read {
        length: upper + 1 + lower,
        value,
    })
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
    Read {
        length,
        value: number(&text[..length]),
    }
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

/// The unit after the number that ends at `end`, and where it ends.
fn unit_after(text: &str, end: usize) -> Option<(usize, Unit)> {
    let start = unit_start(text, end)?;
    let run = unit_run(text.get(start..)?);
    let word = &run[..first_word(run)];
    if is_word(word) && (word != "in" || shows_result(&text[start + word.len()..])) {
        return None;
    }
    let ends = run
        .char_indices()
        .map(|(at, letter)| at + letter.len_utf8())
        .rev();
    let mut candidates = ends.filter(|&end| ends_a_unit(run, end));
    let found = candidates.find_map(|end| Unit::parse(&run[..end]).ok().map(|unit| (start + end, unit)))?;
    let call = text.get(found.0..)?.starts_with('(');
    (!call).then_some(found)
}

/// Whether what follows `in` is a unit up to the end of the formula: `x^2 in cm²` asks for a unit, `2 in * 3`
/// has inches.
fn shows_result(after: &str) -> bool {
    let unit = after.trim();
    after.starts_with(char::is_whitespace) && !unit.is_empty() && Unit::parse(unit).is_ok()
}

/// Where a unit could begin: right after the number, or after one space.
fn unit_start(text: &str, end: usize) -> Option<usize> {
    let after = text.get(end..)?;
    let spaced = after.strip_prefix(' ');
    let first = spaced.unwrap_or(after).chars().next()?;
    let quote = matches!(first, '"' | '\'');
    let begins = first.is_alphabetic()
        || matches!(first, '°' | '%' | '‰' | '″' | '′' | '¤')
        || (quote && spaced.is_none());
    begins.then_some(end + usize::from(spaced.is_some()))
}

/// The longest text that could be a unit.
fn unit_run(text: &str) -> &str {
    let inside = |letter: char| letter.is_alphanumeric() || "°%‰″′\"'¤·⋅/^-.²³¹⁻".contains(letter);
    let length = text
        .find(|letter| !inside(letter))
        .unwrap_or(text.len())
        .min(LONGEST_UNIT);
    let mut length = length;
    while !text.is_char_boundary(length) {
        length -= 1;
    }
    &text[..length]
}

fn first_word(text: &str) -> usize {
    text.find(|letter: char| !(letter.is_alphanumeric() || letter == '_'))
        .unwrap_or(text.len())
}

/// Whether a unit may end here: not inside a word or a power, and not after a sign that joins.
fn ends_a_unit(run: &str, end: usize) -> bool {
    let joins = |letter: char| matches!(letter, '·' | '⋅' | '/' | '^' | '-' | '.' | '⁻');
    let inside_word = |before: char, after: char| before.is_alphanumeric() && after.is_alphanumeric();
    let before = run[..end].chars().next_back();
    let after = run[end..].chars().next();
    let last = before.is_some_and(|before| !joins(before));
    let inside = before
        .zip(after)
        .is_some_and(|(before, after)| inside_word(before, after));
    last && !inside && !subtracts_or_divides_a_number(&run[..end])
}

/// `2 m-3` and `2 m/3` are arithmetic, `2 s^-1` is a unit.
fn subtracts_or_divides_a_number(unit: &str) -> bool {
    let pairs = unit.chars().zip(unit.chars().skip(1));
    let mut before = ' ';
    for (sign, after) in pairs {
        if matches!(sign, '-' | '/' | '.' | '·') && after.is_ascii_digit() && before != '^' {
            return true;
        }
        before = sign;
    }
    false
}

/// A word directly after the number that is no unit and no word of the formula language.
fn stray_word(text: &str, end: usize) -> Option<(usize, &str)> {
    let start = unit_start(text, end)?;
    let after = text.get(start..)?;
    let word = &after[..first_word(after)];
    let call = after[word.len()..].trim_start().starts_with('(');
    (!word.is_empty() && !is_word(word) && !call).then_some((start + word.len(), word))
}
