//! Measurement: how uncertain a reading is, and what it proves about a limit.

mod conformity;
mod coverage;
mod decision;
mod freedom;
mod uncertainty;

pub use conformity::{guard_band, probability_above, probability_below, probability_between};
pub use coverage::{Sides, coverage_factor, normal_factor};
pub use decision::{Decision, Rule, decide};
pub use freedom::{effective_freedom, freedom_share};
pub use uncertainty::{
    Spread, combined_uncertainty, expanded_uncertainty, resolution_uncertainty, standard_uncertainty,
};

use super::{Parameter, Sort, Subject};

/// The functions about measurement.
///
/// Temperatures are given as differences here, since an uncertainty is one: for "at most 80 °C" take the reading less
/// the limit, and 0 K as the limit.
pub const MEASUREMENT: Subject = Subject {
    name: "measurement",
    functions: &[
        uncertainty::STANDARD,
        uncertainty::RESOLUTION,
        uncertainty::COMBINED,
        uncertainty::EXPANDED,
        freedom::SHARE,
        freedom::EFFECTIVE,
        coverage::NORMAL,
        coverage::STUDENT,
        conformity::ABOVE,
        conformity::BELOW,
        conformity::BETWEEN,
        conformity::GUARD_BAND,
        decision::ABOVE,
        decision::BELOW,
        decision::BETWEEN,
    ],
};

const VALUE: Parameter = same(
    "value",
    "what was measured; a temperature as a difference from one of its limits",
);
const LOWER: Parameter = same("lower", "the lower limit");
const UPPER: Parameter = same("upper", "the upper limit");
const UNCERTAINTY: Parameter = same("uncertainty", "its standard uncertainty").above("0");
const CONFIDENCE: Parameter = Parameter::amount("confidence", "%", "how sure to be")
    .above("0")
    .below("100");

const NORMAL: &str =
    "the error of the reading is normally distributed, and nothing else is known about the value";

const fn same(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::new(name, Sort::SameAmount, meaning)
}
