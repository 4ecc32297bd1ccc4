//! What several functions of this subject take and say.

use crate::trade::Parameter;

pub(super) const ANGLE: Parameter =
    Parameter::amount("angle", "°", "the angle at which the joint works").at_least("0").below("90");
pub(super) const SPEED: Parameter =
    Parameter::amount("speed", "rpm", "the speed of the driving shaft").at_least("0");
pub(super) const STEADY: &str = "one cross-and-yoke joint, driven at a steady speed";
pub(super) const KINEMATICS: &str = "kinematics of the cross-and-yoke joint";
