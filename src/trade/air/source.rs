//! Something gives off gas while fresh air is moved through.

use super::clearing::Bay;
use super::shared::{FLOW, METER, MIXING, VOLUME};
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const GIVEN_OFF: Parameter =
    Parameter::amount("given_off", "m³/h", "the gas that is given off").at_least("0");
const SPREAD: &str =
    "nothing else takes the gas away, and beside its source there is more of it than in the whole bay";
const NO_ROOM: &str = "the gas takes up no room of its own: good for levels up to a few per cent";
const BALANCE: &str = "balance of a room: C = G/(K·Q)·(1 - exp(-K·Q·t/V)); without fresh air C = G·t/V";

pub(super) const STEADY: Function = Function {
    name: "steady_level",
    summary: "the level at which a bay settles while gas is given off and fresh air is moved through",
    parameters: &[GIVEN_OFF, FLOW, MIXING],
    result: Shape::Amount("ppm"),
    call: steady_row,
    assumes: &[SPREAD, METER],
    source: BALANCE,
    example: "steady_level(1 ft³/min, flow = 5000 ft³/h, mixing = 0.3)",
};

pub(super) const BUILD_UP: Function = Function {
    name: "level_build_up",
    summary: "the level in a bay after gas was given off for a time, starting in clean air",
    parameters: &[
        GIVEN_OFF,
        VOLUME,
        FLOW,
        Parameter::amount("time", "h", "how long it was given off").at_least("0"),
        MIXING,
    ],
    result: Shape::Amount("ppm"),
    call: |given| {
        let level = level_build_up(given.float("given_off")?, Bay::of(given)?, given.float("time")?);
        if level >= 1.0 {
            return Err(Refusal::of(
                "given_off",
                "that is more gas than the bay has room for; check the units",
            ));
        }
        Answer::float(level * 1e6)
    },
    assumes: &[SPREAD, NO_ROOM, METER],
    source: BALANCE,
    example: "level_build_up(1 ft³/min, volume = 10000 ft³, flow = 5000 ft³/h, time = 2 h, mixing = 0.3)",
};

pub(super) const FLOW_NEEDED: Function = Function {
    name: "flow_needed",
    summary: "the fresh air that keeps a bay at a level while gas is given off",
    parameters: &[
        GIVEN_OFF,
        Parameter::amount("level", "ppm", "the level to keep").above("0").below("1000000"),
        MIXING,
    ],
    result: Shape::Amount("m³/h"),
    call: |given| {
        flow_needed(given.number("given_off")?, given.number("level")?, given.number("mixing")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("level", "must be more than 0 ppm"))
    },
    assumes: &[SPREAD, METER],
    source: BALANCE,
    example: "flow_needed(1 ft³/min, level = 12000 ppm, mixing = 0.3)",
};

/// The level, as a ratio of volumes, at which a bay settles, the air mixing so well (above 0 and up to 1); both flows in
/// one unit. `None` unless more fresh air takes part than gas is given off: the balance leaves out the room that the
/// gas itself takes up.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::air::steady_level;
///
/// assert_eq!(steady_level(3.into(), 60.into(), Num::ONE), Num::ratio(1, 20));
/// assert_eq!(steady_level(3.into(), 60.into(), Num::ratio(1, 2).unwrap()), Num::ratio(1, 10));
/// assert_eq!(steady_level(3.into(), 2.into(), Num::ONE), None);
/// ```
pub fn steady_level(given_off: Num, flow: Num, mixing: Num) -> Option<Num> {
    let taking_part = flow * mixing;
    if given_off >= taking_part {
        return None;
    }
    given_off.checked_div(taking_part)
}

/// The level, as a ratio of volumes, after `time`; all in one set of units, such as m³, m³/h and h. In a closed bay,
/// without any flow, it rises by the same amount in each unit of time.
///
/// ```
/// use bayhand::trade::air::{Bay, level_build_up};
///
/// let closed = Bay { volume: 50.0, flow: 0.0, mixing: 1.0 };
/// assert_eq!(level_build_up(0.1, closed, 2.0), 0.004);
/// ```
pub fn level_build_up(given_off: f64, bay: Bay, time: f64) -> f64 {
    let taking_part = bay.flow * bay.mixing;
    if taking_part <= 0.0 {
        return given_off * time / bay.volume;
    }
    // expm1 keeps the digits of the first minutes.
    -libm::expm1(-taking_part * time / bay.volume) * given_off / taking_part
}

/// The flow of fresh air, in the unit of `given_off`, that keeps a level in ppm, the air mixing so well. `None` for a
/// level or mixing of zero.
pub fn flow_needed(given_off: Num, level: Num, mixing: Num) -> Option<Num> {
    (given_off * 1_000_000.into()).checked_div(level * mixing)
}

fn steady_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let flow = given.number("flow")?;
    if flow.is_zero() {
        return Err(Refusal::of(
            "flow",
            "without fresh air the level never settles; level_build_up says how far it rises in a time",
        ));
    }
    steady_level(given.number("given_off")?, flow, given.number("mixing")?)
        .map(|level| Answer::Number(level * 1_000_000.into()))
        .ok_or_else(|| Refusal::of("flow", "times the mixing must be more than the gas that is given off"))
}
