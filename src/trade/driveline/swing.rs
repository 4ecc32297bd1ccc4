//! How much faster and slower the driven shaft gets in each turn.

use super::shared::{ANGLE, KINEMATICS, SPEED, STEADY};
use crate::trade::angle;
use crate::trade::{Answer, Function, Parameter, Shape};

pub(super) const FASTEST: Function = Function {
    name: "joint_fastest",
    summary: "the highest speed of the driven shaft in each turn of a universal joint",
    parameters: &[SPEED, ANGLE],
    result: Shape::Amount("rpm"),
    call: |given| Answer::float(joint_fastest(given.float("speed")?, given.float("angle")?)),
    assumes: &[STEADY],
    source: KINEMATICS,
    example: "joint_fastest(1200 rpm, angle = 5°)",
};

pub(super) const SLOWEST: Function = Function {
    name: "joint_slowest",
    summary: "the lowest speed of the driven shaft in each turn of a universal joint",
    parameters: &[SPEED, ANGLE],
    result: Shape::Amount("rpm"),
    call: |given| Answer::float(joint_slowest(given.float("speed")?, given.float("angle")?)),
    assumes: &[STEADY],
    source: KINEMATICS,
    example: "joint_slowest(1200 rpm, angle = 5°)",
};

pub(super) const SWING: Function = Function {
    name: "joint_swing",
    summary: "from slowest to fastest, as a share of the mean speed: the unevenness of a universal joint",
    parameters: &[ANGLE],
    result: Shape::Amount("%"),
    call: |given| Answer::float(joint_swing(given.float("angle")?) * 100.0),
    assumes: &[STEADY],
    source: "kinematics of the cross-and-yoke joint: 1/cos b - cos b = tan b·sin b",
    example: "joint_swing(angle = 3°)",
};

pub(super) const ANGLE_FOR_SWING: Function = Function {
    name: "joint_angle_for_swing",
    summary: "the angle at which a universal joint makes a given unevenness",
    parameters: &[Parameter::amount("swing", "%", "from slowest to fastest, as a share of the mean speed")
        .at_least("0")
        .at_most("1000")],
    result: Shape::Amount("°"),
    call: |given| Answer::float(joint_angle_for_swing(given.float("swing")? / 100.0)),
    assumes: &[STEADY],
    source: "kinematics of the cross-and-yoke joint: 1/cos b - cos b = swing",
    example: "joint_angle_for_swing(12 %)",
};

/// The highest speed of the driven shaft, `speed / cos(angle)`; the angle in degrees, from 0 to less than 90.
pub fn joint_fastest(speed: f64, angle: f64) -> f64 {
    speed / angle::cos(angle)
}

/// The lowest speed of the driven shaft, `speed · cos(angle)`; the angle in degrees, from 0 to less than 90.
pub fn joint_slowest(speed: f64, angle: f64) -> f64 {
    speed * angle::cos(angle)
}

/// Fastest less slowest, divided by the mean; the angle in degrees, from 0 to less than 90.
pub fn joint_swing(angle: f64) -> f64 {
    // Not 1/cos - cos, which loses its digits at the small angles that driveshafts have.
    angle::tan(angle) * angle::sin(angle)
}

/// The angle in degrees at which a joint has this swing, which is a ratio: the other way round of [`joint_swing`].
///
/// ```
/// use bayhand::trade::driveline::joint_angle_for_swing;
///
/// assert!((joint_angle_for_swing(1.0 / 12.0) - 16.4229).abs() < 0.0001);
/// ```
pub fn joint_angle_for_swing(swing: f64) -> f64 {
    // From sin² = swing·cos, so that small swings keep their digits.
    let cosine = (libm::sqrt(swing * swing + 4.0) - swing) / 2.0;
    angle::degrees(libm::atan2(libm::sqrt(swing * cosine), cosine))
}
