//! What a count of faults says about how often the fault comes.

use statrs::distribution::{Beta, ContinuousCDF};

use super::shared::{ALIKE, CONFIDENCE, INDEPENDENT, count, counted};
use crate::quantity::Num;
use crate::trade::measurement::Sides;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const FAULTS: Parameter = count("faults", "mornings on which the fault came");
const MORNINGS: Parameter = count("mornings", "all mornings that were tried").at_least("1");
const SIDES: Parameter =
    Parameter::choice("sides", &["two", "one"], "both ends of an interval, or this end only").or("two");
const EXACT: &str = "exact binomial limits (Clopper-Pearson); NIST/SEMATECH e-Handbook 7.2.4.1";

pub(super) const LOWEST: Function = Function {
    name: "fault_rate_lowest",
    summary: "the lowest rate of a fault that fits what was counted",
    parameters: &[FAULTS, MORNINGS, CONFIDENCE, SIDES],
    result: Shape::Amount("%"),
    call: |given| bound(given, fault_rate_lowest),
    assumes: &[INDEPENDENT, ALIKE],
    source: EXACT,
    example: "fault_rate_lowest(faults = 3, mornings = 10)",
};

pub(super) const HIGHEST: Function = Function {
    name: "fault_rate_highest",
    summary: "the highest rate of a fault that fits what was counted",
    parameters: &[FAULTS, MORNINGS, CONFIDENCE, SIDES],
    result: Shape::Amount("%"),
    call: |given| bound(given, fault_rate_highest),
    assumes: &[INDEPENDENT, ALIKE],
    source: EXACT,
    example: "fault_rate_highest(faults = 0, mornings = 14)",
};

pub(super) const RULE_OF_THREE: Function = Function {
    name: "rule_of_three",
    summary: "about the highest rate that fits a run of clean mornings, in the head: 3 divided by their number",
    parameters: &[count("mornings", "clean mornings in a row").at_least("3")],
    result: Shape::Amount("%"),
    call: |given| {
        rule_of_three(given.number("mornings")?)
            .map(|share| Answer::Number(share * 100.into()))
            .ok_or_else(|| Refusal::of("mornings", "must be at least 3"))
    },
    assumes: &[INDEPENDENT, "close from about 30 mornings on, else somewhat high", "95 %, one-sided"],
    source: "rule of three, JAMA 1995;274:1013, after Hanley and Lippman-Hand 1983",
    example: "rule_of_three(mornings = 30)",
};

/// The lowest rate, from 0 to 1, that fits `faults` in `mornings`, with `beyond`, from 0 to 1, as the probability of
/// counting at least so many at that rate. `None` when there are more faults than mornings, or no mornings.
pub fn fault_rate_lowest(faults: u32, mornings: u32, beyond: f64) -> Option<f64> {
    let clean = mornings.checked_sub(faults).filter(|_| mornings > 0)?;
    match (faults, clean) {
        (0, _) => Some(0.0),
        (_, 0) => Some(always(mornings, beyond)),
        _ => quantile(faults.into(), f64::from(clean) + 1.0, beyond),
    }
}

/// The highest rate that fits; see [`fault_rate_lowest`].
///
/// ```
/// use bayhand::trade::evidence::fault_rate_highest;
///
/// assert!((fault_rate_highest(0, 50, 0.05).unwrap() - 0.058_155_08).abs() < 1e-8);
/// ```
pub fn fault_rate_highest(faults: u32, mornings: u32, beyond: f64) -> Option<f64> {
    let clean = mornings.checked_sub(faults).filter(|_| mornings > 0)?;
    match (faults, clean) {
        (_, 0) => Some(1.0),
        (0, _) => Some(-libm::expm1(libm::log(beyond) / f64::from(mornings))),
        _ => quantile(f64::from(faults) + 1.0, clean.into(), 1.0 - beyond),
    }
}

/// The rate at which every morning has the fault with the probability `beyond`.
fn always(mornings: u32, beyond: f64) -> f64 {
    libm::exp(libm::log(beyond) / f64::from(mornings))
}

fn quantile(first: f64, second: f64, below: f64) -> Option<f64> {
    Beta::new(first, second).ok().map(|beta| beta.inverse_cdf(below))
}

/// Three divided by the number of clean mornings, as a ratio; `None` for no mornings.
pub fn rule_of_three(mornings: Num) -> Option<Num> {
    Num::from(3).checked_div(mornings)
}

type Bound = fn(u32, u32, f64) -> Option<f64>;

fn bound(given: &Given<'_>, bound: Bound) -> Result<Answer, Refusal> {
    let (faults, mornings) = (counted(given, "faults")?, counted(given, "mornings")?);
    let outside = 1.0 - given.float("confidence")? / 100.0;
    let beyond = match Sides::named(given.text("sides")?) {
        Sides::One => outside,
        Sides::Two => outside / 2.0,
    };
    let rate = bound(faults, mornings, beyond)
        .ok_or_else(|| Refusal::of("faults", "must be at most the number of mornings"))?;
    Answer::float(rate * 100.0)
}
