//! An adapter changes the lever: the wrench must be set to another torque than the fastener gets.

use crate::quantity::Num;
use crate::trade::angle;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// Away from the grip, back towards it, or to the side, where the length does not change.
const WAYS: &[&str] = &["longer", "shorter", "right angle"];

const TORQUE: Parameter =
    Parameter::amount("torque", "N·m", "the torque that the fastener must get").at_least("0");
const WRENCH: Parameter =
    Parameter::amount("wrench", "mm", "from the middle of the grip to the square drive")
        .above("0")
        .at_most("5000");
const ADAPTER: Parameter =
    Parameter::amount("adapter", "mm", "from the square drive to the fastener").at_least("0").at_most("5000");
const WAY: Parameter = Parameter::choice("way", WAYS, "where the adapter points").or("longer");

const IN_LINE: &str = "the adapter is in line with the wrench, which is pulled at the middle of its grip";
const LEVER: &str = "equilibrium of the lever: S = T·L / (L ± A)";

pub(super) const SETTING: Function = Function {
    name: "adapter_setting",
    summary: "what to set a torque wrench to when an adapter changes its length",
    parameters: &[TORQUE, WRENCH, ADAPTER, WAY],
    result: Shape::Amount("N·m"),
    call: setting_row,
    assumes: &[IN_LINE],
    source: LEVER,
    example: "adapter_setting(35 lbf·ft, wrench = 18 in, adapter = 2 in)",
};

pub(super) const SETTING_AT_ANGLE: Function = Function {
    name: "adapter_setting_at_angle",
    summary: "what to set a torque wrench to when the adapter stands at an angle to it",
    parameters: &[
        TORQUE,
        WRENCH,
        ADAPTER,
        Parameter::amount("angle", "°", "0° in line, away from the grip; 180° back towards it")
            .at_least("0")
            .at_most("180"),
    ],
    result: Shape::Amount("N·m"),
    call: setting_at_angle_row,
    assumes: &["the wrench is pulled square to its own length, at the middle of its grip"],
    source: "equilibrium of the lever with the adapter's length along the wrench: S = T·L / (L + A·cos(angle))",
    example: "adapter_setting_at_angle(35 lbf·ft, wrench = 18 in, adapter = 2 in, angle = 45°)",
};

pub(super) const AT_FASTENER: Function = Function {
    name: "torque_at_fastener",
    summary: "what the fastener gets from a wrench that is set to a torque and has an adapter on it",
    parameters: &[
        Parameter::amount("setting", "N·m", "what the wrench is set to").at_least("0"),
        WRENCH,
        ADAPTER,
        WAY,
    ],
    result: Shape::Amount("N·m"),
    call: at_fastener_row,
    assumes: &[IN_LINE],
    source: LEVER,
    example: "torque_at_fastener(80 N·m, wrench = 450 mm, adapter = 50 mm)",
};

/// What to set a wrench of length `wrench` to, so that the fastener at the end of an adapter of length `adapter`
/// gets `torque`; both lengths in one unit, the result in the unit of `torque`. An adapter that points back
/// towards the grip has a negative length. `None` when the lengths leave no lever.
///
/// ```
/// use bayhand::trade::fasteners::adapter_setting;
///
/// assert_eq!(adapter_setting(30.into(), 12.into(), 3.into()), Some(24.into()));
/// ```
pub fn adapter_setting(torque: Num, wrench: Num, adapter: Num) -> Option<Num> {
    let lever = wrench + adapter;
    if lever <= Num::ZERO {
        return None;
    }
    (torque * wrench).checked_div(lever)
}

/// As [`adapter_setting`], with the adapter at `angle` degrees to the wrench: 0 in line and away from the grip, 90 to
/// the side, where it changes nothing, 180 back towards the grip.
pub fn adapter_setting_at_angle(torque: Num, wrench: Num, adapter: Num, angle: f64) -> Option<Num> {
    adapter_setting(torque, wrench, adapter * Num::approx(angle::cos(angle)))
}

/// What the fastener gets when the wrench is set to `setting`: the other way round of [`adapter_setting`]. `None`
/// when the lengths leave no lever.
pub fn torque_at_fastener(setting: Num, wrench: Num, adapter: Num) -> Option<Num> {
    let lever = wrench + adapter;
    if lever <= Num::ZERO {
        return None;
    }
    (setting * lever).checked_div(wrench)
}

fn setting_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    adapter_setting(given.number("torque")?, given.number("wrench")?, lengthening(given)?)
        .map(Answer::Number)
        .ok_or_else(no_lever)
}

fn setting_at_angle_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let (torque, wrench) = (given.number("torque")?, given.number("wrench")?);
    adapter_setting_at_angle(torque, wrench, given.number("adapter")?, given.float("angle")?)
        .map(Answer::Number)
        .ok_or_else(no_lever)
}

fn at_fastener_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    torque_at_fastener(given.number("setting")?, given.number("wrench")?, lengthening(given)?)
        .map(Answer::Number)
        .ok_or_else(no_lever)
}

/// By how much the adapter makes the lever longer.
fn lengthening(given: &Given<'_>) -> Result<Num, Refusal> {
    let adapter = given.number("adapter")?;
    Ok(match given.text("way")? {
        "shorter" => -adapter,
        "right angle" => Num::ZERO,
        _ => adapter,
    })
}

fn no_lever() -> Refusal {
    Refusal::of("adapter", "an adapter that points back must be shorter than the wrench")
}
