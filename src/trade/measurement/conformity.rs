//! How probable it is that the true value keeps its limits.

use statrs::distribution::{ContinuousCDF, Normal};

use super::coverage::{Sides, normal_factor};
use super::shared::{LOWER, NORMAL, UNCERTAINTY, UPPER, VALUE, same};
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const SOURCE: &str = "JCGM 106:2012, clause 7";

pub(super) const BELOW: Function = Function {
    name: "probability_below",
    summary: "how probable it is that the true value is at most a limit",
    parameters: &[VALUE, UNCERTAINTY, UPPER],
    result: Shape::Amount("%"),
    call: |given| {
        let uncertainty = given.float("uncertainty")?;
        percent(probability_below(room(given, "upper", "value")?, uncertainty))
    },
    assumes: &[NORMAL],
    source: SOURCE,
    example: "probability_below(28.5 psi, uncertainty = 0.6 psi, upper = 30 psi)",
};

pub(super) const ABOVE: Function = Function {
    name: "probability_above",
    summary: "how probable it is that the true value is at least a limit",
    parameters: &[VALUE, UNCERTAINTY, LOWER],
    result: Shape::Amount("%"),
    call: |given| {
        let uncertainty = given.float("uncertainty")?;
        percent(probability_above(room(given, "value", "lower")?, uncertainty))
    },
    assumes: &[NORMAL],
    source: SOURCE,
    example: "probability_above(2.4 L/min, uncertainty = 0.1 L/min, lower = 2.2 L/min)",
};

pub(super) const BETWEEN: Function = Function {
    name: "probability_between",
    summary: "how probable it is that the true value lies between two limits",
    parameters: &[VALUE, UNCERTAINTY, LOWER, UPPER],
    result: Shape::Amount("%"),
    call: between_row,
    assumes: &[NORMAL],
    source: SOURCE,
    example: "probability_between(35 lbf·ft, uncertainty = 0.8 lbf·ft, lower = 33 lbf·ft, upper = 37 lbf·ft)",
};

pub(super) const GUARD_BAND: Function = Function {
    name: "guard_band",
    summary: "how far inside of a limit a reading must lie, to be so sure that the limit is kept",
    parameters: &[
        same("uncertainty", "the standard uncertainty of the reading").at_least("0"),
        Parameter::amount("confidence", "%", "how sure to be that the limit is kept")
            .at_least("50")
            .below("100")
            .or("95 %"),
    ],
    result: Shape::Same,
    call: |given| {
        guard_band(given.float("uncertainty")?, given.float("confidence")? / 100.0)
            .ok_or_else(|| Refusal::of("confidence", "must be at least 50 % and less than 100 %"))
            .and_then(Answer::float)
    },
    assumes: &[NORMAL],
    source: "JCGM 106:2012, clause 8.3.2: w = z·u, one-sided",
    example: "30 psi - guard_band(0.6 psi)",
};

/// The probability, from 0 to 1, that the true value is at most the limit, when the reading is `room` below it; room
/// and standard uncertainty in one unit.
///
/// ```
/// use bayhand::trade::measurement::probability_below;
///
/// assert!((probability_below(0.07, 0.05) - 0.919_243).abs() < 1e-6);
/// ```
pub fn probability_below(room: f64, uncertainty: f64) -> f64 {
    Normal::standard().cdf(room / uncertainty)
}

/// As [`probability_below`] for a lower limit, `room` above it.
pub fn probability_above(room: f64, uncertainty: f64) -> f64 {
    probability_below(room, uncertainty)
}

/// The probability that the true value lies between two limits, when the reading is `above` the lower one and `below`
/// the upper one by so much.
pub fn probability_between(above: f64, below: f64, uncertainty: f64) -> f64 {
    let outside = |room: f64| Normal::standard().sf(room / uncertainty);
    (1.0 - outside(above) - outside(below)).max(0.0)
}

/// How far inside of a limit a reading must lie for a one-sided confidence, from 0.5 to less than 1; in the unit of
/// the standard uncertainty.
pub fn guard_band(uncertainty: f64, confidence: f64) -> Option<f64> {
    let factor = normal_factor(confidence, Sides::One).filter(|_| confidence >= 0.5)?;
    Some(uncertainty * factor)
}

fn percent(share: f64) -> Result<Answer, Refusal> {
    Answer::float(share * 100.0)
}

/// The exact difference, so that a reading on its limit has no room at all.
fn room(given: &Given<'_>, high: &str, low: &str) -> Result<f64, Refusal> {
    Ok((given.number(high)? - given.number(low)?).to_f64())
}

fn between_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    if given.number("lower")? > given.number("upper")? {
        return Err(Refusal::of("lower", "must be at most the upper limit"));
    }
    let (above, below) = (room(given, "value", "lower")?, room(given, "upper", "value")?);
    percent(probability_between(above, below, given.float("uncertainty")?))
}
