//! Something gives off gas while fresh air is moved through.

use super::shared::{FLOW, METER, VOLUME};
use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

const GIVEN_OFF: Parameter =
    Parameter::amount("given_off", "m³/h", "the gas that is given off").at_least("0");
const MIXED: &str = "the gas mixes fully with the air of the bay, and nothing else takes it away";
const BALANCE: &str = "balance of a mixed room: C = (G/Q)·(1 - exp(-Q·t/V))";

pub(super) const STEADY: Function = Function {
    name: "steady_level",
    summary: "the level at which a bay settles while gas is given off and fresh air is moved through",
    parameters: &[GIVEN_OFF, FLOW],
    result: Shape::Amount("ppm"),
    call: |given| {
        steady_level(given.number("given_off")?, given.number("flow")?)
            .map(|level| Answer::Number(level * 1_000_000.into()))
            .ok_or_else(too_little_air)
    },
    assumes: &[MIXED, METER],
    source: BALANCE,
    example: "steady_level(1 ft³/min, flow = 5000 ft³/h)",
};

pub(super) const BUILD_UP: Function = Function {
    name: "level_build_up",
    summary: "the level in a bay after gas was given off for a time, starting in clean air",
    parameters: &[
        GIVEN_OFF,
        VOLUME,
        FLOW,
        Parameter::amount("time", "h", "how long it was given off").at_least("0"),
    ],
    result: Shape::Amount("ppm"),
    call: |given| {
        steady_level(given.number("given_off")?, given.number("flow")?).ok_or_else(too_little_air)?;
        let level = level_build_up(
            given.float("given_off")?,
            given.float("volume")?,
            given.float("flow")?,
            given.float("time")?,
        );
        Answer::float(level * 1e6)
    },
    assumes: &[MIXED, METER],
    source: BALANCE,
    example: "level_build_up(1 ft³/min, volume = 10000 ft³, flow = 5000 ft³/h, time = 2 h)",
};

pub(super) const FLOW_NEEDED: Function = Function {
    name: "flow_needed",
    summary: "the fresh air that keeps a bay at a level while gas is given off",
    parameters: &[
        GIVEN_OFF,
        Parameter::amount("level", "ppm", "the level to keep").above("0").below("1000000"),
    ],
    result: Shape::Amount("m³/h"),
    call: |given| {
        flow_needed(given.number("given_off")?, given.number("level")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("level", "must be more than 0 ppm"))
    },
    assumes: &[MIXED, METER],
    source: BALANCE,
    example: "flow_needed(1 ft³/min, level = 12000 ppm)",
};

/// The level, as a ratio of volumes, at which a bay settles; both flows in one unit. `None` unless more fresh air comes
/// in than gas is given off: the balance leaves out the room that the gas itself takes up.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::air::steady_level;
///
/// assert_eq!(steady_level(3.into(), 60.into()), Num::ratio(1, 20));
/// assert_eq!(steady_level(3.into(), 2.into()), None);
/// ```
pub fn steady_level(given_off: Num, flow: Num) -> Option<Num> {
    if given_off >= flow {
        return None;
    }
    given_off.checked_div(flow)
}

/// The level, as a ratio of volumes, after `time`; all in one set of units, such as m³, m³/h and h.
pub fn level_build_up(given_off: f64, volume: f64, flow: f64, time: f64) -> f64 {
    // expm1 keeps the digits of the first minutes.
    -libm::expm1(-flow * time / volume) * given_off / flow
}

/// The flow of fresh air, in the unit of `given_off`, that keeps a level in ppm. `None` for a level of zero.
pub fn flow_needed(given_off: Num, level: Num) -> Option<Num> {
    (given_off * 1_000_000.into()).checked_div(level)
}

fn too_little_air() -> Refusal {
    Refusal::of("flow", "must be more than the gas that is given off")
}
