//! What a count of faults says about how often the fault comes.

use statrs::distribution::{Beta, ContinuousCDF};

use super::{ALIKE, CONFIDENCE, INDEPENDENT, count};
use crate::quantity::Num;
use crate::trade::measurement::Sides;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const FAULTS: Parameter = count("faults", "mornings on which the fault came");
const MORNINGS: Parameter = count("mornings", "all mornings that were tried").at_least("1");
const SIDES: Parameter = Parameter::choice(
    "sides",
    &["two", "one"],
    "both ends of an interval, or this end only",
)
.or("two");
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
    assumes: &[
        INDEPENDENT,
        "close from about 30 mornings on, else somewhat high",
        "95 %, one-sided",
    ],
    source: "rule of three, JAMA 1995;274:1013, after Hanley and Lippman-Hand 1983",
    example: "rule_of_three(mornings = 30)",
};

/// The lowest rate, from 0 to 1, that fits `faults` in `mornings`, with `beyond`, from 0 to 1, as the probability of
/// lying below it. `None` when there are more faults than mornings, or no mornings.
pub fn fault_rate_lowest(faults: f64, mornings: f64, beyond: f64) -> Option<f64> {
    fault_rate_highest(mornings - faults, mornings, beyond).map(|highest| 1.0 - highest)
}

/// The highest rate that fits; see [`fault_rate_lowest`].
///
/// ```
/// use bayhand::trade::evidence::fault_rate_highest;
///
/// assert!((fault_rate_highest(0.0, 50.0, 0.05).unwrap() - 0.058_155_08).abs() < 1e-8);
/// ```
pub fn fault_rate_highest(faults: f64, mornings: f64, beyond: f64) -> Option<f64> {
    let clean = mornings - faults;
    if faults < 0.0 || clean < 0.0 || mornings < 1.0 {
        return None;
    }
    if clean < 0.5 {
        return Some(1.0);
    }
    if faults < 0.5 {
        return Some(-libm::expm1(libm::log(beyond) / mornings));
    }
    Beta::new(faults + 1.0, clean)
        .ok()
        .map(|beta| beta.inverse_cdf(1.0 - beyond))
}

/// Three divided by the number of clean mornings, as a ratio; `None` for no mornings.
pub fn rule_of_three(mornings: Num) -> Option<Num> {
    Num::from(3).checked_div(mornings)
}

type Bound = fn(f64, f64, f64) -> Option<f64>;

fn bound(given: &Given<'_>, bound: Bound) -> Result<Answer, Refusal> {
    let (faults, mornings) = (given.whole("faults")?, given.whole("mornings")?);
    let outside = 1.0 - given.float("confidence")? / 100.0;
    let beyond = match Sides::named(given.text("sides")?) {
        Sides::One => outside,
        Sides::Two => outside / 2.0,
    };
    let rate = bound(f64::from(faults), f64::from(mornings), beyond)
        .ok_or_else(|| Refusal::of("faults", "must be at most the number of mornings"))?;
    Answer::float(rate * 100.0)
}
