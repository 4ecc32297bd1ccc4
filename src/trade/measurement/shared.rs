//! What several functions of this subject take and say.

use crate::trade::{Parameter, Sort};

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
