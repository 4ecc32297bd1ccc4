//! What several functions of this subject take and say.

use crate::trade::{Parameter, Refusal, Sort};

pub(super) const WEIGHT: Parameter = load("weight", "what the vehicle weighs as it stands").above("0");
pub(super) const CENTRE: Parameter =
    Parameter::amount("centre", "mm", "from the front supports back to the centre of gravity");
pub(super) const SPAN: Parameter =
    Parameter::amount("span", "mm", "from the front supports back to the rear ones").above("0");

pub(super) const LEVEL: &str = "the vehicle stands level and still, on hard ground";
pub(super) const NO_VERDICT: &str = "a computed load is no verdict: the supports' makers and the people on the job decide whether it may stand";

pub(super) const fn load(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::new(name, Sort::SameAmount, meaning)
}

pub(super) fn tips(parameter: &str) -> Refusal {
    Refusal::of(
        parameter,
        "the centre of gravity must lie between the front and the rear supports: beyond them the vehicle tips",
    )
}
