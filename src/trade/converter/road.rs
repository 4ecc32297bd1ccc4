//! Engine speed and road speed, through ratios and tyre.

use std::f64::consts::PI;

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const AXLE: Parameter = Parameter::number("axle", "the ratio of the axle").above("0");
const GEAR: Parameter = Parameter::number("gear", "the ratio of the gear that is engaged").above("0");
const TYRE: Parameter = Parameter::amount("tyre", "m", "the diameter of the tyre as it rolls, loaded")
    .at_least("0.1")
    .at_most("5");
const SLIP: Parameter = Parameter::amount("slip", "%", "the slip of the converter; none when it is locked")
    .at_least("0")
    .below("100")
    .or("0 %");

const SOURCE: &str = "geometry: the tyre rolls its circumference in one turn";
const ROLLS: &str = "the tyre does not slip, and the diameter is that at which it rolls";

pub(super) const ENGINE_SPEED: Function = Function {
    name: "engine_speed",
    summary: "the engine speed at a road speed",
    parameters: &[
        Parameter::amount("speed", "m/min", "the road speed").at_least("0"),
        AXLE,
        GEAR,
        TYRE,
        SLIP,
    ],
    result: Shape::Amount("rpm"),
    call: |given| {
        let speed = given.number("speed")?;
        answer(engine_speed(speed, drive(given)?))
    },
    assumes: &[ROLLS],
    source: SOURCE,
    example: "engine_speed(70 mph, axle = 3.42, gear = 0.70, tyre = 28 in)",
};

pub(super) const ROAD_SPEED: Function = Function {
    name: "road_speed",
    summary: "the road speed at an engine speed",
    parameters: &[
        Parameter::amount("engine", "rpm", "the speed of the engine").at_least("0"),
        AXLE,
        GEAR,
        TYRE,
        SLIP,
    ],
    result: Shape::Amount("m/min"),
    call: |given| {
        let engine = given.number("engine")?;
        answer(road_speed(engine, drive(given)?))
    },
    assumes: &[ROLLS],
    source: SOURCE,
    example: "road_speed(2200 rpm, axle = 3.73, gear = 0.70, tyre = 28 in)",
};

pub(super) const TYRE_DIAMETER: Function = Function {
    name: "tyre_diameter",
    summary: "the nominal diameter of a new, unloaded tyre from its size",
    parameters: &[
        Parameter::amount("width", "mm", "its nominal width, as in 235/75 R 15").above("0").at_most("2000"),
        Parameter::amount("aspect", "%", "the height of its side as a share of the width, as in 235/75 R 15")
            .above("0")
            .at_most("100"),
        Parameter::amount("rim", "mm", "the nominal diameter of the rim, as in 235/75 R 15: 15 in")
            .above("0")
            .at_most("2000"),
    ],
    result: Shape::Amount("mm"),
    call: |given| {
        let aspect = given.number("aspect")? * Num::ratio(1, 100).unwrap_or(Num::ZERO);
        Ok(Answer::Number(tyre_diameter(given.number("width")?, aspect, given.number("rim")?)))
    },
    assumes: &["the tyre is new and bears no load; under load it rolls on a few per cent less"],
    source: "meaning of the size: rim + 2·width·aspect",
    example: "tyre_diameter(235 mm, aspect = 75 %, rim = 15 in)",
};

/// What stands between engine and road.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Drive {
    /// The ratio of the axle.
    pub axle: Num,
    /// The ratio of the gear.
    pub gear: Num,
    /// The rolling diameter of the tyre.
    pub tyre: Num,
    /// The slip of the converter as a share, from 0 to less than 1.
    pub slip: Num,
}

impl Drive {
    /// How far the vehicle goes in one turn of the engine, in the unit of the tyre's diameter.
    fn in_one_turn(self) -> Option<Num> {
        let turns = (Num::ONE - self.slip).checked_div(self.axle * self.gear)?;
        Some(turns * self.tyre * Num::approx(PI))
    }
}

/// The engine speed in turns a unit of time, at a road speed in the tyre's unit of length a unit of time. `None` when
/// the drive does not move.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::converter::{Drive, engine_speed};
///
/// let drive = Drive { axle: 3.into(), gear: 1.into(), tyre: 700.into(), slip: Num::ZERO };
/// let turns = engine_speed(1_000_000.into(), drive).unwrap();
/// assert!((turns.to_f64() - 1364.185).abs() < 1e-3);
/// ```
pub fn engine_speed(speed: Num, drive: Drive) -> Option<Num> {
    speed.checked_div(drive.in_one_turn()?)
}

/// The road speed, in the tyre's unit of length a unit of time, at an engine speed in turns a unit of time. `None` when
/// a ratio is zero.
pub fn road_speed(engine: Num, drive: Drive) -> Option<Num> {
    Some(engine * drive.in_one_turn()?)
}

/// The nominal diameter of a tyre of `width`, whose side is `aspect` (0 to 1) of it high, on a `rim`; exact.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::converter::tyre_diameter;
///
/// assert_eq!(tyre_diameter(200.into(), Num::ratio(1, 2).unwrap(), 400.into()), 600.into());
/// ```
pub fn tyre_diameter(width: Num, aspect: Num, rim: Num) -> Num {
    rim + width * aspect * 2.into()
}

fn drive(given: &Given<'_>) -> Result<Drive, Refusal> {
    Ok(Drive {
        axle: given.number("axle")?,
        gear: given.number("gear")?,
        tyre: given.number("tyre")?,
        slip: given.number("slip")? * Num::ratio(1, 100).unwrap_or(Num::ZERO),
    })
}

fn answer(speed: Option<Num>) -> Result<Answer, Refusal> {
    speed.map(Answer::Number).ok_or_else(|| Refusal::of_all("ratios and tyre must be more than zero"))
}
