//! The angles at which joints work, from what an inclinometer or a tape gives.

use crate::quantity::Num;
use crate::trade::angle;
use crate::trade::{Answer, Function, Parameter, Shape};

const fn slope(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::amount(name, "°", meaning).above("-90").below("90")
}

const fn view(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::amount(name, "°", meaning).at_least("0").below("90")
}

const ONE_SIGN: &str = "slopes down to the rear all have one sign, slopes up the other";

pub(super) const OPERATING: Function = Function {
    name: "operating_angle",
    summary: "the angle between two shafts in side view, from their slopes",
    parameters: &[
        slope("first", "the slope of one shaft"),
        slope("second", "the slope of the other").either_way(),
    ],
    result: Shape::Amount("°"),
    call: |given| Ok(Answer::Number(operating_angle(given.number("first")?, given.number("second")?))),
    assumes: &[ONE_SIGN, "both shafts lie in one vertical plane"],
    source: "plain geometry",
    example: "operating_angle(3°, 1°)",
};

pub(super) const DIFFERENCE: Function = Function {
    name: "operating_angle_difference",
    summary: "by how much the working angles at the two ends of a driveshaft differ",
    parameters: &[
        slope("output", "the slope of the transmission output"),
        slope("shaft", "the slope of the driveshaft"),
        slope("pinion", "the slope of the axle pinion"),
    ],
    result: Shape::Amount("°"),
    call: |given| {
        Ok(Answer::Number(operating_angle_difference(
            given.number("output")?,
            given.number("shaft")?,
            given.number("pinion")?,
        )))
    },
    assumes: &[ONE_SIGN, "all shafts lie in one vertical plane"],
    source: "plain geometry; commonly the two should be equal within 1°",
    example: "operating_angle_difference(output = 3°, shaft = 1°, pinion = -1°)",
};

pub(super) const COMPOUND: Function = Function {
    name: "compound_angle",
    summary: "the true angle of a joint that is at an angle both seen from the side and seen from above",
    parameters: &[
        view("side", "the angle seen from the side"),
        view("plan", "the angle seen from above").either_way(),
    ],
    result: Shape::Amount("°"),
    call: |given| Answer::float(compound_angle(given.float("side")?, given.float("plan")?)),
    assumes: &["both angles were measured in views square to the straight-ahead shaft"],
    source: "geometry: tan² = tan² side + tan² plan",
    example: "compound_angle(side = 4°, plan = 3°)",
};

pub(super) const COMPOUND_OF_BEARING: Function = Function {
    name: "compound_angle_of_bearing",
    summary: "the true angle of a joint, from the slope of the shaft along itself and its bearing seen from above",
    parameters: &[
        view("slope", "the slope of the shaft, with the inclinometer along the shaft"),
        view("bearing", "the angle seen from above"),
    ],
    result: Shape::Amount("°"),
    call: |given| Answer::float(compound_angle_of_bearing(given.float("slope")?, given.float("bearing")?)),
    assumes: &["the other shaft is level and straight ahead"],
    source: "geometry: cos = cos slope · cos bearing",
    example: "compound_angle_of_bearing(slope = 4°, bearing = 3°)",
};

/// The angle between two shafts in one vertical plane, from their slopes with sign, in the unit of both.
pub fn operating_angle(first: Num, second: Num) -> Num {
    (first - second).abs()
}

/// By how much the working angle at the output differs from the one at the pinion, from three slopes with sign.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::driveline::operating_angle_difference;
///
/// assert_eq!(operating_angle_difference(3.into(), 1.into(), (-1).into()), Num::ZERO);
/// ```
pub fn operating_angle_difference(output: Num, shaft: Num, pinion: Num) -> Num {
    (operating_angle(output, shaft) - operating_angle(shaft, pinion)).abs()
}

/// The true angle in degrees from its two projections in degrees, each from 0 to less than 90.
pub fn compound_angle(side: f64, plan: f64) -> f64 {
    angle::degrees(libm::atan(libm::hypot(angle::tan(side), angle::tan(plan))))
}

/// The true angle in degrees from the slope along the shaft and its bearing, in degrees from 0 to less than 90.
pub fn compound_angle_of_bearing(slope: f64, bearing: f64) -> f64 {
    angle::arc_cos(angle::cos(slope) * angle::cos(bearing))
}
