//! The torque converter and the speeds around it.

mod capacity;
mod drain;
mod fit;
mod idle;
mod road;
mod slip;
mod stall;

use crate::trade::Subject;

pub use capacity::{k_factor, stall_speed, torque_absorbed};
pub use drain::left_in_cylinder;
pub use fit::pull_up_gap;
pub use idle::idle_drop;
pub use road::{Drive, engine_speed, road_speed, tyre_diameter};
pub use slip::{converter_slip, speed_ratio};
pub use stall::{Warming, stall_heat};

/// The functions about the converter.
pub const CONVERTER: Subject = Subject {
    name: "converter",
    functions: &[
        slip::SPEED_RATIO,
        slip::CONVERTER_SLIP,
        capacity::K_FACTOR,
        capacity::TORQUE_ABSORBED,
        capacity::STALL_SPEED,
        stall::STALL_HEAT,
        stall::STALL_TEMPERATURE_RISE,
        drain::LEFT_IN_CONVERTER,
        fit::PULL_UP_GAP,
        idle::IDLE_DROP,
        road::ENGINE_SPEED,
        road::ROAD_SPEED,
        road::TYRE_DIAMETER,
    ],
};
