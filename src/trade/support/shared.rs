//! What several functions of this subject take and say.

use crate::quantity::Num;
use crate::trade::{Given, Parameter, Refusal, Sort};

pub(super) const WEIGHT: Parameter = load("weight", "what the vehicle weighs as it stands").above("0");
pub(super) const CENTRE: Parameter = along("centre", "from the front supports back to the centre of gravity");
pub(super) const SPAN: Parameter =
    Parameter::amount("span", "mm", "from the front supports back to the rear ones")
        .at_least("100")
        .at_most("30000");

pub(super) const LEVEL: &str = "the vehicle stands level and still, on hard ground";
pub(super) const NO_VERDICT: &str = "a computed load is no verdict: the supports' makers and the people on the job decide whether it may stand";

pub(super) const fn load(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::new(name, Sort::SameAmount, meaning)
}

/// A length along or across a vehicle, which may lie on the other side.
pub(super) const fn along(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::amount(name, "mm", meaning).at_least("-30000").at_most("30000")
}

/// A load that is given: in kilograms or newtons, whichever it is. A thousand tonnes or a hundred tonnes-force are more
/// than any vehicle in a workshop weighs, and were typed in another unit than meant.
pub(super) fn weighed(given: &Given<'_>, name: &str) -> Result<Num, Refusal> {
    let load = given.number(name)?;
    if load > 1_000_000.into() {
        return Err(Refusal::of(name, "is more than any vehicle weighs; check the number and its unit"));
    }
    Ok(load)
}

/// What a whole vehicle weighs: see [`weighed`]; ten kilograms or newtons are no vehicle.
pub(super) fn vehicle(given: &Given<'_>) -> Result<Num, Refusal> {
    let weight = weighed(given, "weight")?;
    if weight < 10.into() {
        return Err(Refusal::of("weight", "is less than any vehicle weighs; check the number and its unit"));
    }
    Ok(weight)
}

pub(super) fn tips(parameter: &str) -> Refusal {
    Refusal::of(
        parameter,
        "the centre of gravity must lie between the front and the rear supports: beyond them the vehicle tips",
    )
}
