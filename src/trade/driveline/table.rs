//! The table of this subject, and what its rows share.

use super::{angles, cancelling, joint, rule, swing};
use crate::trade::{Parameter, Subject};

/// The functions about the driveline.
pub const DRIVELINE: Subject = Subject {
    name: "driveline",
    functions: &[
        joint::SPEED_AT,
        joint::TURNED,
        joint::EQUAL_SPEED_POSITION,
        swing::FASTEST,
        swing::SLOWEST,
        swing::SWING,
        swing::ANGLE_FOR_SWING,
        angles::OPERATING,
        angles::DIFFERENCE,
        angles::COMPOUND,
        angles::COMPOUND_OF_BEARING,
        cancelling::LEFTOVER,
        rule::LIMIT,
    ],
};

pub(super) const ANGLE: Parameter =
    Parameter::amount("angle", "°", "the angle at which the joint works").at_least("0").below("90");
pub(super) const SPEED: Parameter =
    Parameter::amount("speed", "rpm", "the speed of the driving shaft").at_least("0");
pub(super) const STEADY: &str = "one cross-and-yoke joint, driven at a steady speed";
pub(super) const KINEMATICS: &str = "kinematics of the cross-and-yoke joint";
