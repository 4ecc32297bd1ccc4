//! How much slower the converter's turbine turns than its pump.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const ENGINE: Parameter =
    Parameter::amount("engine", "rpm", "the speed of the engine, which drives the pump").above("0");
const TURBINE: Parameter =
    Parameter::amount("turbine", "rpm", "the speed of the turbine, which is the input shaft").at_least("0");

pub(super) const SPEED_RATIO: Function = Function {
    name: "speed_ratio",
    summary: "the speed of the converter's turbine over that of its pump; zero at stall",
    parameters: &[ENGINE, TURBINE],
    result: Shape::Number,
    call: |given| Ok(Answer::Number(ratio(given)?)),
    assumes: &[],
    source: "definition: turbine speed over pump speed",
    example: "speed_ratio(2200 rpm, turbine = 2000 rpm)",
};

pub(super) const CONVERTER_SLIP: Function = Function {
    name: "converter_slip",
    summary: "the share by which the converter's turbine turns slower than its pump; below zero when it turns faster",
    parameters: &[ENGINE, TURBINE],
    result: Shape::Amount("%"),
    call: |given| Ok(Answer::Number((Num::ONE - ratio(given)?) * 100.into())),
    assumes: &[],
    source: "definition: 1 - speed ratio",
    example: "converter_slip(2200 rpm, turbine = 2000 rpm)",
};

/// Turbine speed over engine speed, both in one unit; exact. `None` when the engine stands.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::converter::speed_ratio;
///
/// assert_eq!(speed_ratio(2200.into(), 2000.into()), Num::ratio(10, 11));
/// ```
pub fn speed_ratio(engine: Num, turbine: Num) -> Option<Num> {
    turbine.checked_div(engine)
}

/// The slip as a share of the engine speed, both in one unit; exact. `None` when the engine stands.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::converter::converter_slip;
///
/// assert_eq!(converter_slip(2200.into(), 2000.into()), Num::ratio(1, 11));
/// ```
pub fn converter_slip(engine: Num, turbine: Num) -> Option<Num> {
    Some(Num::ONE - speed_ratio(engine, turbine)?)
}

fn ratio(given: &Given<'_>) -> Result<Num, Refusal> {
    speed_ratio(given.number("engine")?, given.number("turbine")?)
        .ok_or_else(|| Refusal::of("engine", "the engine must turn"))
}
