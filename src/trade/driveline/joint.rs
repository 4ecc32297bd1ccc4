//! One universal joint through one turn.

use super::shared::{ANGLE, KINEMATICS, SPEED, STEADY};
use crate::trade::angle;
use crate::trade::{Answer, Function, Parameter, Shape};

const POSITION: Parameter = Parameter::amount(
    "position",
    "°",
    "how far the driving shaft has turned; at 0° its yoke lies in the plane of both shafts",
);

pub(super) const SPEED_AT: Function = Function {
    name: "joint_speed",
    summary: "how fast the driven shaft turns at one position of a universal joint",
    parameters: &[SPEED, ANGLE, POSITION],
    result: Shape::Amount("rpm"),
    call: |given| {
        Answer::float(joint_speed(given.float("speed")?, given.float("angle")?, given.float("position")?))
    },
    assumes: &[STEADY],
    source: "kinematics of the cross-and-yoke joint: w2/w1 = cos b / (1 - sin² b·cos² t)",
    example: "joint_speed(1200 rpm, angle = 5°, position = 30°)",
};

pub(super) const TURNED: Function = Function {
    name: "joint_turned",
    summary: "how far the driven shaft has turned when the driving shaft has turned to a position",
    parameters: &[POSITION, ANGLE],
    result: Shape::Amount("°"),
    call: |given| Answer::float(joint_turned(given.float("position")?, given.float("angle")?)),
    assumes: &["one cross-and-yoke joint"],
    source: "kinematics of the cross-and-yoke joint: tan f = tan t / cos b",
    example: "joint_turned(position = 45°, angle = 20°)",
};

pub(super) const EQUAL_SPEED_POSITION: Function = Function {
    name: "joint_equal_speed_position",
    summary: "the first position at which both shafts of a universal joint turn equally fast",
    parameters: &[ANGLE],
    result: Shape::Amount("°"),
    call: |given| Answer::float(joint_equal_speed_position(given.float("angle")?)),
    assumes: &[STEADY],
    source: KINEMATICS,
    example: "joint_equal_speed_position(angle = 20°)",
};

/// The speed of the driven shaft, in the unit of `speed`, when the driving shaft stands at `position` degrees and
/// the joint works at `angle` degrees, from 0 to less than 90. Fastest at 0 and 180, slowest at 90 and 270.
///
/// ```
/// use bayhand::trade::driveline::joint_speed;
///
/// assert!((joint_speed(500.0, 20.0, 90.0) - 469.846).abs() < 0.001);
/// ```
pub fn joint_speed(speed: f64, angle: f64, position: f64) -> f64 {
    let tilted = angle::sin(angle) * angle::cos(position);
    speed * angle::cos(angle) / (1.0 - tilted * tilted)
}

/// How many degrees the driven shaft has turned when the driving shaft has turned `position` degrees; the same after
/// each quarter turn.
pub fn joint_turned(position: f64, angle: f64) -> f64 {
    let turns = libm::round(position / 360.0) * 360.0;
    let rest = position - turns;
    let turned = libm::atan2(angle::sin(rest), angle::cos(rest) * angle::cos(angle));
    turns + angle::degrees(turned)
}

/// The first position in degrees, between 0 and 45, at which both shafts turn equally fast: `tan t = sqrt(cos b)`.
pub fn joint_equal_speed_position(angle: f64) -> f64 {
    angle::degrees(libm::atan(libm::sqrt(angle::cos(angle))))
}
