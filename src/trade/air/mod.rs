//! Air: carbon monoxide in the bay, clearing it, and what hot fluid does to skin.
//!
//! An estimate never replaces a meter at breathing height: the meter, local rules and the people in the bay decide.

mod burn;
mod clearing;
mod exposure;
mod limits;
mod source;
mod table;

pub use burn::scald_time;
pub use clearing::{Bay, air_changes, flow_from_decay, level_after, time_to_clear};
pub use exposure::{carbon_monoxide_level, carbon_monoxide_mass, exposure_mixture, time_weighted_average};
pub use limits::{Standing, carbon_monoxide_standing};
pub use source::{flow_needed, level_build_up, steady_level};
pub use table::AIR;
