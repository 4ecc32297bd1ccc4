//! Fasteners: what to set the wrench to, and what the bolt gets.

mod grade;
mod pattern;
mod preload;
mod table;
mod thread;
mod tool;
mod wrench;

pub use grade::{Class, proof_load, ultimate_load};
pub use pattern::cross_order;
pub use preload::{preload, torque_for_preload};
pub use table::FASTENERS;
pub use thread::{stress_area, stress_area_inch};
pub use tool::{torque_tool_lowest, torque_tool_tolerance};
pub use wrench::{adapter_setting, adapter_setting_at_angle, torque_at_fastener};
