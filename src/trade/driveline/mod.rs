//! The driveline: universal joints, the angles at which they work, and the unevenness they make.

mod angles;
mod cancelling;
mod joint;
mod rule;
mod shared;
mod swing;

use crate::trade::Subject;

pub use angles::{compound_angle, compound_angle_of_bearing, operating_angle, operating_angle_difference};
pub use cancelling::{Yokes, leftover_angle};
pub use joint::{joint_equal_speed_position, joint_speed, joint_turned};
pub use rule::joint_angle_limit;
pub use swing::{joint_angle_for_swing, joint_fastest, joint_slowest, joint_swing};

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
