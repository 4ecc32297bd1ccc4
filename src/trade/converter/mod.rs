//! The torque converter and the speeds around it.

mod capacity;
mod fit;
mod idle;
mod road;
mod slip;
mod table;

pub use capacity::{k_factor, stall_speed, torque_absorbed};
pub use fit::pull_up_gap;
pub use idle::idle_drop;
pub use road::{Drive, engine_speed, road_speed, tyre_diameter};
pub use slip::{converter_slip, speed_ratio};
pub use table::CONVERTER;
