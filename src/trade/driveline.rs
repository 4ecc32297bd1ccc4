//! The driveline: universal joints, the angles at which they work, and the unevenness they make.

mod angles;
mod cancelling;
mod joint;
mod rule;
mod swing;

pub use angles::{compound_angle, compound_angle_of_bearing, operating_angle, operating_angle_difference};
pub use cancelling::{Yokes, leftover_angle};
pub use joint::{joint_equal_speed_position, joint_speed, joint_turned};
pub use rule::joint_angle_limit;
pub use swing::{joint_angle_for_swing, joint_fastest, joint_slowest, joint_swing};

use super::{Parameter, Subject};

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

const ANGLE: Parameter = Parameter::amount("angle", "°", "the angle at which the joint works")
    .at_least("0")
    .below("90");
const SPEED: Parameter = Parameter::amount("speed", "rpm", "the speed of the driving shaft").at_least("0");
const STEADY: &str = "one cross-and-yoke joint, driven at a steady speed";
const KINEMATICS: &str = "kinematics of the cross-and-yoke joint";
