//! Air: carbon monoxide in the bay, clearing it, and what hot fluid does to skin.
//!
//! An estimate never replaces a meter at breathing height: the meter, local rules and the people in the bay decide.

mod burn;
mod clearing;
mod exposure;
mod limits;
mod source;

pub use burn::scald_time;
pub use clearing::{Bay, air_changes, flow_from_decay, level_after, time_to_clear};
pub use exposure::{carbon_monoxide_level, carbon_monoxide_mass, exposure_mixture, time_weighted_average};
pub use limits::{Standing, carbon_monoxide_standing};
pub use source::{flow_needed, level_build_up, steady_level};

use super::{Parameter, Sort, Subject};

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
        source::STEADY,
        source::BUILD_UP,
        source::FLOW_NEEDED,
        burn::SCALD,
    ],
};

const VOLUME: Parameter = Parameter::amount("volume", "m³", "the volume of the bay").above("0");
const FLOW: Parameter =
    Parameter::amount("flow", "m³/h", "the fresh air that is moved through it").above("0");
const FROM: Parameter = Parameter::new("from", Sort::SameAmount, "the level at the start").above("0");
const TO: Parameter = Parameter::new("to", Sort::SameAmount, "the level to come down to").above("0");
const MIXING: Parameter = Parameter::number(
    "mixing",
    "how well the fresh air mixes with the old: 1 fully, commonly 0.1 to 0.3 in a room with dead corners",
)
.above("0")
.at_most("1")
.or("1");

const METER: &str = "a meter at breathing height decides, not this estimate";
const FRESH: &str = "the incoming air is clean, and no more of the gas comes in";
const DECAY: &str = "dilution of a mixed room: C = C0·exp(-K·Q·t/V)";
