//! The table of this subject.

use super::{capacity, fit, idle, road, slip};
use crate::trade::Subject;

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
