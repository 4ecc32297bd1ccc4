//! How often a bad part is accepted because the instrument cannot tell.

use statrs::distribution::{Continuous, ContinuousCDF, Normal};

use super::coverage::{Sides, normal_factor};
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// An even number of strips: enough for nine digits over the whole range.
const STRIPS: u16 = 400;
/// Beyond so many standard uncertainties outside of the limit nothing is accepted any more.
const REACH: f64 = 9.0;

pub(super) const FALSE_ACCEPTS: Function = Function {
    name: "false_accept_share",
    summary: "of all parts that are measured, the share that is bad and accepted all the same",
    parameters: &[
        Parameter::amount("in_tolerance", "%", "the share of the parts that are good")
            .at_least("1")
            .at_most("99.99"),
        Parameter::number("ratio", "the spread of the parts divided by the uncertainty of the instrument")
            .at_least("1")
            .at_most("1000"),
    ],
    result: Shape::Amount("%"),
    call: row,
    assumes: &[
        "parts and errors are normally distributed, both about the middle between two limits",
        "each part that reads within its limits is accepted",
    ],
    source: "joint probability of a value outside and a reading inside of the limits; JCGM 106:2012, clause 9.5",
    example: "false_accept_share(95 %, ratio = 4)",
};

/// The share, from 0 to 1, of all parts that lie outside of their limits and read inside of them. `in_tolerance` is the
/// share of good parts, from 0 to 1; `ratio` is the standard deviation of the parts divided by the standard uncertainty
/// of the instrument, from 1. `None` outside of these ranges.
///
/// ```
/// use bayhand::trade::measurement::false_accept_share;
///
/// assert!((false_accept_share(0.9, 4.0).unwrap() - 0.015_999_531).abs() < 1e-8);
/// ```
pub fn false_accept_share(in_tolerance: f64, ratio: f64) -> Option<f64> {
    let limit = normal_factor(in_tolerance, Sides::Two).filter(|_| ratio >= 1.0)?;
    let width = REACH / ratio / f64::from(STRIPS);
    // Simpson's rule over the values above the upper limit; those below the lower one are as many.
    let strips = (0..=STRIPS).map(|strip| {
        let value = limit + f64::from(strip) * width;
        weight(strip) * bad_and_accepted(value, limit, ratio)
    });
    Some(2.0 * strips.sum::<f64>() * width / 3.0)
}

/// How probable a value is, times how probably it reads within the limits; in standard deviations of the parts.
fn bad_and_accepted(value: f64, limit: f64, ratio: f64) -> f64 {
    let normal = Normal::standard();
    let accepted = normal.cdf((limit - value) * ratio) - normal.cdf((-limit - value) * ratio);
    normal.pdf(value) * accepted
}

fn weight(strip: u16) -> f64 {
    match strip {
        0 | STRIPS => 1.0,
        strip if strip % 2 == 1 => 4.0,
        _ => 2.0,
    }
}

fn row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let share = false_accept_share(given.float("in_tolerance")? / 100.0, given.float("ratio")?)
        .ok_or_else(|| Refusal::of("ratio", "must be at least 1"))?;
    Answer::float(share * 100.0)
}
