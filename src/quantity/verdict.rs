//! Pass or fail: a value judged by its limits, and how far it is from them.

use std::cmp::Ordering;
use std::fmt;

use super::shown::with_unit;
use super::{Limit, Limits, Mismatch, Num, Quantity};

/// How a reading stands to its limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Outcome {
    /// It is acceptable.
    Pass,
    /// It is not.
    Fail,
}

/// Which end of the acceptable a limit is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// The least that is acceptable.
    Lower,
    /// The most that is acceptable.
    Upper,
}

/// How far a value is from the limit that decides: the one it breaks, else the nearer one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Distance {
    /// Which limit that is.
    pub side: Side,
    /// The limit, in the unit it was given in.
    pub limit: Limit,
    /// Where the value is: less than, equal to or greater than the limit.
    pub place: Ordering,
    /// How far apart they are, never negative, in the unit of the value.
    pub amount: Quantity,
}

/// Pass or fail, and by how much.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// Pass or fail.
    pub outcome: Outcome,
    /// From which limit and how far; none where there was no limit to judge by.
    pub distance: Option<Distance>,
}

/// Judges a value by its limits, exactly and at full precision: nothing is rounded into tolerance.
///
/// ```
/// use bayhand::quantity::{Limits, judge, parse_literal};
///
/// let limits = Limits::max(parse_literal("30 psi").unwrap());
/// let verdict = judge(&parse_literal("207 kPa").unwrap(), &limits).unwrap();
/// assert_eq!(verdict.to_string(), "fail, 0.157 kPa above the maximum of 30 psi");
/// ```
pub fn judge(value: &Quantity, limits: &Limits) -> Result<Verdict, Mismatch> {
    let lower = limits.lower.as_ref().map(|limit| distance(value, Side::Lower, limit)).transpose()?;
    let upper = limits.upper.as_ref().map(|limit| distance(value, Side::Upper, limit)).transpose()?;
    let mut distances: Vec<Distance> = lower.into_iter().chain(upper).collect();
    let fails = distances.iter().any(|distance| !distance.is_met());
    distances.retain(|distance| distance.is_met() != fails);
    let amount = |distance: &Distance| distance.amount.number;
    let deciding = if fails {
        distances.into_iter().max_by_key(amount)
    } else {
        distances.into_iter().min_by_key(amount)
    };
    Ok(Verdict { outcome: if fails { Outcome::Fail } else { Outcome::Pass }, distance: deciding })
}

fn distance(value: &Quantity, side: Side, limit: &Limit) -> Result<Distance, Mismatch> {
    let place = value.compare(&limit.quantity)?;
    let gap = value.number - limit.quantity.in_unit(&value.unit)?.number;
    // Where approximate factors are involved, the comparison decides; the distance must not contradict it.
    let gap = if place == Ordering::Equal { Num::ZERO } else { gap.abs() };
    let amount = Quantity::new(gap, value.unit.as_difference());
    Ok(Distance { side, limit: limit.clone(), place, amount })
}

impl Distance {
    /// Whether the value is on the acceptable side of the limit.
    pub fn is_met(&self) -> bool {
        match (self.place, self.side) {
            (Ordering::Equal, _) => self.limit.inclusive,
            (Ordering::Greater, Side::Lower) | (Ordering::Less, Side::Upper) => true,
            (Ordering::Less, Side::Lower) | (Ordering::Greater, Side::Upper) => false,
        }
    }

    fn limit_word(&self) -> &'static str {
        match (self.limit.inclusive, self.side) {
            (false, _) => "limit",
            (true, Side::Lower) => "minimum",
            (true, Side::Upper) => "maximum",
        }
    }

    /// The distance as it is told: an exact one in full, else three digits; of temperatures in plain degrees, since the
    /// words around it say that it is a distance.
    pub fn shown(&self) -> String {
        let number = self.amount.number;
        let text = number.short_decimal().unwrap_or_else(|| number.shown_with(3));
        with_unit(&text, &self.amount.unit.to_string()).replacen('Δ', "", 1)
    }
}

/// `2.8 N·m below the maximum`, without the limit itself.
impl fmt::Display for Distance {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let limit = self.limit_word();
        match self.place {
            Ordering::Less => write!(out, "{} below the {limit}", self.shown()),
            Ordering::Equal => write!(out, "exactly on the {limit}"),
            Ordering::Greater => write!(out, "{} above the {limit}", self.shown()),
        }
    }
}

impl Verdict {
    /// How far from which limit: `2.8 N·m below the maximum`; of a failure with the limit itself. Nothing where there is no
    /// limit to judge by.
    pub fn why(&self) -> Option<String> {
        let distance = self.distance.as_ref()?;
        if self.outcome == Outcome::Pass {
            return Some(distance.to_string());
        }
        let must = match (distance.place, distance.side) {
            (Ordering::Equal, Side::Lower) => " and must be above it",
            (Ordering::Equal, Side::Upper) => " and must be below it",
            _ => "",
        };
        Some(format!("{distance} of {}{must}", distance.limit.quantity))
    }
}

/// `pass, 2.8 N·m below the maximum`; a failure also names the limit.
impl fmt::Display for Verdict {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.outcome, self.why()) {
            (Outcome::Pass, None) => out.write_str("pass, no limit to judge by"),
            (Outcome::Fail, None) => out.write_str("fail"),
            (Outcome::Pass, Some(why)) => write!(out, "pass, {why}"),
            (Outcome::Fail, Some(why)) => write!(out, "fail, {why}"),
        }
    }
}
