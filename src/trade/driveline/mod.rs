//! The driveline: universal joints, the angles at which they work, and the unevenness they make.

mod angles;
mod cancelling;
mod joint;
mod rule;
mod swing;
mod table;

pub use angles::{compound_angle, compound_angle_of_bearing, operating_angle, operating_angle_difference};
pub use cancelling::{Yokes, leftover_angle};
pub use joint::{joint_equal_speed_position, joint_speed, joint_turned};
pub use rule::joint_angle_limit;
pub use swing::{joint_angle_for_swing, joint_fastest, joint_slowest, joint_swing};
pub use table::DRIVELINE;
