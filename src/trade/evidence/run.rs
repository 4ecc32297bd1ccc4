//! A run of clean mornings, had nothing been fixed.

use super::shared::{ALIKE, CONFIDENCE, INDEPENDENT, KNOWN_RATE, RATE, count};
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Refusal, Shape};

const SOURCE: &str = "probability of no fault in n independent trials: (1 - rate)^n";

pub(super) const PROBABILITY: Function = Function {
    name: "clean_run_probability",
    summary: "how probable so many clean mornings in a row would be if nothing had been fixed",
    parameters: &[RATE.at_least("0"), count("mornings", "clean mornings in a row")],
    result: Shape::Amount("%"),
    call: probability_row,
    assumes: &[INDEPENDENT, ALIKE, KNOWN_RATE],
    source: SOURCE,
    example: "clean_run_probability(30 %, mornings = 10)",
};

pub(super) const NEEDED: Function = Function {
    name: "clean_mornings_needed",
    summary: "how many clean mornings in a row it takes to be so sure that something has changed",
    parameters: &[RATE.at_least("0.01"), CONFIDENCE.at_least("1").at_most("99.9999")],
    result: Shape::Number,
    call: needed_row,
    assumes: &[INDEPENDENT, ALIKE, KNOWN_RATE],
    source: SOURCE,
    example: "clean_mornings_needed(30 %, confidence = 95 %)",
};

/// The probability, from 0 to 1, of so many mornings in a row without the fault, when it came at `rate`, from 0 to 1,
/// before; exact as long as the numbers fit. `None` when the rate is no share or the count is negative.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::evidence::clean_run_probability;
///
/// assert_eq!(clean_run_probability(Num::ratio(1, 2).unwrap(), 3), Num::ratio(1, 8));
/// ```
pub fn clean_run_probability(rate: Num, mornings: i32) -> Option<Num> {
    if !(Num::ZERO..=Num::ONE).contains(&rate) || mornings < 0 {
        return None;
    }
    (Num::ONE - rate).powi(mornings)
}

/// The smallest number of clean mornings in a row whose probability, had nothing been fixed, is at most
/// `1 - confidence`; both from 0 to 1. `None` when the rate is not above zero or the confidence is no share.
pub fn clean_mornings_needed(rate: Num, confidence: Num) -> Option<i32> {
    if rate <= Num::ZERO || confidence >= Num::ONE {
        return None;
    }
    let left = Num::ONE - confidence;
    if rate >= Num::ONE {
        return Some(1);
    }
    let about = libm::ceil(libm::log(left.to_f64()) / libm::log1p(-rate.to_f64()));
    let enough = |mornings| clean_run_probability(rate, mornings).is_some_and(|chance| chance <= left);
    // The logarithms may be off by a hair where the power hits the mark exactly.
    let first = (whole(about)? - 1).max(0);
    (first..=first.saturating_add(3)).find(|mornings| enough(*mornings))
}

#[expect(clippy::cast_possible_truncation, reason = "checked to lie within the range")]
fn whole(number: f64) -> Option<i32> {
    (number >= 0.0 && number < f64::from(i32::MAX)).then_some(number as i32)
}

fn probability_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let rate = share(given, "rate")?;
    clean_run_probability(rate, given.whole("mornings")?)
        .map(|chance| Answer::Number(chance * 100.into()))
        .ok_or_else(|| Refusal::of("rate", "must be at least 0 % and at most 100 %"))
}

fn needed_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    clean_mornings_needed(share(given, "rate")?, share(given, "confidence")?)
        .map(|mornings| Answer::Number(i64::from(mornings).into()))
        .ok_or_else(|| Refusal::of("rate", "must be at least 0.01 % and at most 100 %"))
}

/// A per cent parameter as a ratio.
fn share(given: &Given<'_>, name: &str) -> Result<Num, Refusal> {
    let percent = given.number(name)?;
    Ok(percent.checked_div(100.into()).unwrap_or(percent))
}
