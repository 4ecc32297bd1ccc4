//! The table of this subject, and what its rows share.

use super::{acceptance, conformity, coverage, decision, freedom, uncertainty};
use crate::trade::{Parameter, Sort, Subject};

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
        acceptance::FALSE_ACCEPTS,
        decision::ABOVE,
        decision::BELOW,
        decision::BETWEEN,
    ],
};

pub(super) const VALUE: Parameter =
    same("value", "what was measured; a temperature as a difference from one of its limits");
pub(super) const LOWER: Parameter = same("lower", "the lower limit");
pub(super) const UPPER: Parameter = same("upper", "the upper limit");
pub(super) const UNCERTAINTY: Parameter = same("uncertainty", "its standard uncertainty").above("0");
pub(super) const CONFIDENCE: Parameter =
    Parameter::amount("confidence", "%", "how sure to be").above("0").below("100");

pub(super) const NORMAL: &str =
    "the error of the reading is normally distributed, and nothing else is known about the value";

pub(super) const fn same(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::new(name, Sort::SameAmount, meaning)
}
