//! Torque and preload: how hard a bolt pulls when it is tightened.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const DIAMETER: Parameter =
    Parameter::amount("diameter", "mm", "the nominal diameter of the thread").above("0").at_most("300");
/// Without a default on purpose: nobody but the person knows how dry or oiled the thread is.
const NUT_FACTOR: Parameter = Parameter::number(
    "nut_factor",
    "friction of thread and head in one number; commonly 0.20 to 0.25 dry, 0.15 to 0.20 oiled",
)
.at_least("0.05")
.at_most("0.5");

const SCATTER: &str = "the same torque commonly gives a preload up to a quarter more or less than computed";
const SERVICE: &str = "the torque to use is the one in the vehicle's service information";
const SOURCE: &str = "T = K·D·F, the short form of the torque equation (NASA RP-1228)";

pub(super) const PRELOAD: Function = Function {
    name: "preload",
    summary: "the force with which a bolt clamps after it was tightened to a torque",
    parameters: &[
        Parameter::amount("torque", "N·m", "the torque that the fastener gets").at_least("0"),
        DIAMETER,
        NUT_FACTOR,
    ],
    result: Shape::Amount("N"),
    call: preload_row,
    assumes: &[SCATTER],
    source: SOURCE,
    example: "preload(50 N·m, diameter = 10 mm, nut_factor = 0.2)",
};

pub(super) const TORQUE_FOR_PRELOAD: Function = Function {
    name: "torque_for_preload",
    summary: "the torque that would give a bolt a wanted preload",
    parameters: &[
        Parameter::amount("preload", "N", "the wanted clamping force").at_least("0"),
        DIAMETER,
        NUT_FACTOR,
    ],
    result: Shape::Amount("N·m"),
    call: torque_row,
    assumes: &[SCATTER, SERVICE],
    source: SOURCE,
    example: "torque_for_preload(25 kN, diameter = 10 mm, nut_factor = 0.2)",
};

/// The preload in newtons from a torque in newton metres, a diameter in millimetres and the nut factor.
/// `None` when the diameter or the nut factor is not above zero.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::fasteners::preload;
///
/// let nut_factor = Num::parse_decimal("0.2").unwrap();
/// assert_eq!(preload(50.into(), 10.into(), nut_factor), Some(25_000.into()));
/// ```
pub fn preload(torque: Num, diameter: Num, nut_factor: Num) -> Option<Num> {
    let divisor = nut_factor * diameter;
    if diameter <= Num::ZERO || nut_factor <= Num::ZERO {
        return None;
    }
    (torque * 1000.into()).checked_div(divisor)
}

/// The torque in newton metres for a preload in newtons: the other way round of [`preload`].
pub fn torque_for_preload(preload: Num, diameter: Num, nut_factor: Num) -> Option<Num> {
    (preload * diameter * nut_factor).checked_div(1000.into())
}

fn preload_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    preload(given.number("torque")?, given.number("diameter")?, given.number("nut_factor")?)
        .map(Answer::Number)
        .ok_or_else(|| Refusal::of("diameter", "must be more than 0 mm"))
}

fn torque_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    torque_for_preload(given.number("preload")?, given.number("diameter")?, given.number("nut_factor")?)
        .map(Answer::Number)
        .ok_or_else(|| Refusal::of_all("these values have no finite result"))
}
