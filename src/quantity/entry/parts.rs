//! Several numbers with their units that add up to one quantity: `5 ft 3 in`.

use super::number::leading;
use super::trouble::Trouble;
use super::{EntryProblem, number};
use crate::quantity::{Kind, Num, Quantity, Unit, UnknownUnit};

/// A number and the text of its unit.
struct Part<'a> {
    number: Num,
    unit: &'a str,
}

/// One number with a unit, or several that add up: `5 ft 3 in`, `1 h 30 min`. A bare number takes the asked
/// unit.
pub(super) fn quantity(text: &str, asked: &Unit) -> Result<Quantity, EntryProblem> {
    let first = whole(text, asked);
    match first {
        Err(EntryProblem::UnknownUnit(_)) => whole(&spaced(text), asked).or(first),
        _ => first,
    }
}

fn whole(text: &str, asked: &Unit) -> Result<Quantity, EntryProblem> {
    let (negative, body) = number::sign(text);
    let parts =
        split(body).map_err(|trouble| if negative { trouble.negative() } else { trouble }.with(text))?;
    let mut sum = match parts.as_slice() {
        [only] if only.unit.is_empty() => Quantity::new(only.number, asked.clone()),
        parts => added(parts).map_err(|problem| problem.in_text(text))?,
    };
    if negative {
        sum.number = -sum.number;
    }
    Ok(sum)
}

/// What is wrong with a part: its number or its unit.
enum PartProblem {
    Number(Trouble),
    Unit(UnknownUnit),
}

impl PartProblem {
    fn in_text(self, text: &str) -> EntryProblem {
        match self {
            Self::Number(trouble) => trouble.with(text),
            Self::Unit(problem) => EntryProblem::UnknownUnit(problem),
        }
    }
}

fn split(body: &str) -> Result<Vec<Part<'_>>, Trouble> {
    let mut parts = Vec::new();
    let mut rest = body;
    loop {
        if rest.starts_with(['-', '+']) {
            return Err(Trouble::Why("only one sign can stand before a number"));
        }
        let (number, behind) = leading(rest)?;
        let (unit, next) = behind.split_at(unit_length(behind));
        parts.push(Part { number, unit: unit.trim() });
        if next.is_empty() {
            return Ok(parts);
        }
        rest = next.trim_start_matches([' ', '-']);
    }
}

/// How far the unit goes: to the next number after a blank or a mark for feet or inches. `1/` before a letter
/// belongs to the unit, as in `1450 1/min`.
fn unit_length(text: &str) -> usize {
    let mut before = None;
    for (place, char) in text.char_indices() {
        let starts = matches!(before, Some(' ' | '\'' | '"' | '’' | '”' | '′' | '″'));
        let rest = &text[place..];
        let number = rest.strip_prefix('-').unwrap_or(rest).starts_with(|char: char| char.is_ascii_digit());
        let reciprocal = rest.strip_prefix("1/").is_some_and(|rest| rest.starts_with(char::is_alphabetic));
        let dash = char == '-' && before == Some(' ');
        if starts && number && !reciprocal && !dash {
            return place;
        }
        before = Some(char);
    }
    text.len()
}

/// The sum of the parts, in the unit of the first.
fn added(parts: &[Part<'_>]) -> Result<Quantity, PartProblem> {
    let mut sum: Option<Quantity> = None;
    let mut smallest: Option<Quantity> = None;
    for part in parts {
        let unit = named_unit(part)?;
        let amount = Quantity::new(part.number, unit.clone());
        if let Some(former) = &smallest {
            fits_below(former, &amount).map_err(PartProblem::Number)?;
        }
        sum = Some(match sum {
            Some(sum) => sum.plus(&amount).map_err(|_| PartProblem::Number(DIFFERENT))?,
            None => amount,
        });
        smallest = Some(Quantity::new(Num::ONE, unit));
    }
    sum.ok_or(PartProblem::Number(NO_UNIT))
}

const DIFFERENT: Trouble =
    Trouble::Why("numbers that belong together have units of the same thing, like `5 ft 3 in`");
const NO_UNIT: Trouble = Trouble::Why("of several numbers each needs its unit, like `5 ft 3 in`");
const ORDER: Trouble =
    Trouble::Why("the larger unit comes first, and the smaller one makes up less than one of it");

fn named_unit(part: &Part<'_>) -> Result<Unit, PartProblem> {
    if part.unit.is_empty() {
        return Err(PartProblem::Number(NO_UNIT));
    }
    Unit::parse(part.unit).map_err(PartProblem::Unit)
}

/// Whether an amount is less than one of the unit before it.
fn fits_below(former: &Quantity, amount: &Quantity) -> Result<(), Trouble> {
    if amount.kind() == Kind::Point || former.kind() == Kind::Point {
        return Err(DIFFERENT);
    }
    match amount.compare(former) {
        Ok(std::cmp::Ordering::Less) => Ok(()),
        Ok(_) => Err(ORDER),
        Err(_) => Err(DIFFERENT),
    }
}

/// With a blank between a letter and a digit: `1h30min` becomes `1h 30min`.
fn spaced(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 4);
    let mut before = ' ';
    for char in text.chars() {
        if before.is_alphabetic() && char.is_ascii_digit() {
            out.push(' ');
        }
        out.push(char);
        before = char;
    }
    out
}
