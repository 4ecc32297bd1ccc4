//! Air: carbon monoxide in the bay, clearing it, and what hot fluid does to skin.
//!
//! An estimate never replaces a meter at breathing height: the meter, local rules and the people in the bay decide.

mod burn;
mod clearing;
mod engine;
mod exposure;
mod limits;
mod shared;
mod source;
mod vapour;

use crate::trade::Subject;

pub use burn::scald_time;
pub use clearing::{Bay, air_changes, flow_from_decay, level_after, time_to_clear};
pub use engine::Running;
pub use exposure::{
    Part, carbon_monoxide_level, carbon_monoxide_mass, exposure_mixture, time_weighted_average,
};
pub use limits::{Standing, carbon_monoxide_standing};
pub use source::{flow_needed, level_build_up, steady_level};
pub use vapour::vapour_level;

/// The functions about air.
pub const AIR: Subject = Subject {
    name: "air",
    functions: &[
        exposure::AVERAGE,
        exposure::MIXTURE,
        exposure::MASS,
        exposure::LEVEL,
        limits::STANDING,
        clearing::CHANGES,
        clearing::TIME,
        clearing::LEVEL_AFTER,
        clearing::FLOW_FROM_DECAY,
        engine::GIVEN_OFF,
        source::STEADY,
        source::BUILD_UP,
        source::FLOW_NEEDED,
        vapour::VAPOUR_LEVEL,
        vapour::SHARE_OF_EXPLOSIVE_LIMIT,
        burn::SCALD,
    ],
};
