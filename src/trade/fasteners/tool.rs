//! How far off a torque tool may be.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const LARGEST: Parameter =
    Parameter::amount("largest", "N·m", "the largest torque that the tool can be set to").above("0");
const ASSUMES: &[&str] = &["the tool is a wrench with a scale (type II, class A), in calibration"];

pub(super) const TOLERANCE: Function = Function {
    name: "torque_tool_tolerance",
    summary: "how far above or below its setting a torque wrench may be",
    parameters: &[Parameter::amount("setting", "N·m", "what the wrench is set to").above("0"), LARGEST],
    result: Shape::Amount("N·m"),
    call: tolerance_row,
    assumes: ASSUMES,
    source: "ISO 6789: ±4 %, or ±6 % for a tool up to 10 N·m, from 20 % of its largest torque upwards",
    example: "torque_tool_tolerance(35 lbf·ft, largest = 100 lbf·ft)",
};

pub(super) const LOWEST: Function = Function {
    name: "torque_tool_lowest",
    summary: "the lowest setting at which a torque wrench is tested",
    parameters: &[LARGEST],
    result: Shape::Amount("N·m"),
    call: |given| Ok(Answer::Number(torque_tool_lowest(given.number("largest")?))),
    assumes: ASSUMES,
    source: "ISO 6789: tested at 20 %, 60 % and 100 % of the largest torque",
    example: "torque_tool_lowest(largest = 100 lbf·ft)",
};

/// The permitted deviation, up or down, of a setting torque wrench (ISO 6789, type II class A); everything in newton
/// metres. `None` when the setting is below 20 % of the largest torque or above it: there the tool is not tested.
pub fn torque_tool_tolerance(setting: Num, largest: Num) -> Option<Num> {
    if setting < torque_tool_lowest(largest) || setting > largest {
        return None;
    }
    let percent: Num = if largest > 10.into() { 4 } else { 6 }.into();
    (setting * percent).checked_div(100.into())
}

/// A fifth of the largest torque, the lowest point at which ISO 6789 tests a tool; in the unit of `largest`.
pub fn torque_tool_lowest(largest: Num) -> Num {
    largest.checked_div(5.into()).unwrap_or(largest)
}

fn tolerance_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    torque_tool_tolerance(given.number("setting")?, given.number("largest")?).map(Answer::Number).ok_or_else(
        || {
            Refusal::of(
                "setting",
                "must be from 20 % to 100 % of the tool's largest torque; take a tool of another size",
            )
        },
    )
}
