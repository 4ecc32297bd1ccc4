//! Fasteners: what to set the wrench to, and what the bolt gets.

mod grade;
mod pattern;
mod preload;
mod strength;
mod thread;
mod tool;
mod wrench;

use crate::trade::Subject;

pub use grade::{Class, proof_load, ultimate_load};
pub use pattern::cross_order;
pub use preload::{preload, torque_for_preload};
pub use strength::{End, Strength, lever_torque, twist_torque};
pub use thread::{stress_area, stress_area_inch};
pub use tool::{torque_tool_lowest, torque_tool_tolerance};
pub use wrench::{adapter_setting, adapter_setting_at_angle, torque_at_fastener};

/// The functions about fasteners.
pub const FASTENERS: Subject = Subject {
    name: "fasteners",
    functions: &[
        wrench::SETTING,
        wrench::SETTING_AT_ANGLE,
        wrench::AT_FASTENER,
        preload::PRELOAD,
        preload::TORQUE_FOR_PRELOAD,
        thread::STRESS_AREA,
        thread::STRESS_AREA_INCH,
        grade::PROOF_LOAD,
        grade::ULTIMATE_LOAD,
        strength::LEVER_TORQUE,
        strength::TWIST_TORQUE,
        strength::TWIST_TORQUE_INCH,
        tool::TOLERANCE,
        tool::LOWEST,
    ],
};
