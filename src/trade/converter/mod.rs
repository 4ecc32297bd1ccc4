//! The torque converter and the speeds around it.

mod capacity;
mod fit;
mod idle;
mod road;
mod slip;

use crate::trade::Subject;

pub use capacity::{k_factor, stall_speed, torque_absorbed};
pub use fit::pull_up_gap;
pub use idle::idle_drop;
pub use road::{Drive, engine_speed, road_speed, tyre_diameter};
pub use slip::{converter_slip, speed_ratio};

/// The functions about the converter.
pub const CONVERTER: Subject = Subject {
    name: "converter",
    functions: &[
        slip::SPEED_RATIO,
        slip::CONVERTER_SLIP,
        capacity::K_FACTOR,
        capacity::TORQUE_ABSORBED,
        capacity::STALL_SPEED,
        fit::PULL_UP_GAP,
        idle::IDLE_DROP,
        road::ENGINE_SPEED,
        road::ROAD_SPEED,
        road::TYRE_DIAMETER,
    ],
};
