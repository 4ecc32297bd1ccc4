//! Fluid: changing it in part, filling it in stages, how it grows with heat, how thick it is, buying it.

mod change;
mod dipstick;
mod expansion;
mod grade;
mod level;
mod packs;
mod stages;
mod viscosity;
mod viscosity_index;
mod viscosity_index_table;

use crate::trade::Subject;

pub use change::{drains_needed, old_fluid_left, old_fluid_left_by_exchange};
pub use dipstick::{dipstick_volume, level_error_on_slope};
pub use expansion::{Base, base_density, lubricating_oil_expansion, volume_factor};
pub use grade::{engine_oil_grade, gear_oil_grade};
pub use level::{Warming, level_rise, oil_volume_at};
pub use packs::packs_to_buy;
pub use stages::Stages;
pub use viscosity::{KnownViscosity, viscosity_at, viscosity_of_z, z_of_viscosity};
pub use viscosity_index::viscosity_index;

/// The functions about fluid.
pub const FLUID: Subject = Subject {
    name: "fluid",
    functions: &[
        change::OLD_FLUID_LEFT,
        change::OLD_FLUID_LEFT_BY_EXCHANGE,
        change::DRAINS_NEEDED,
        stages::FLUID_NOW_IN,
        stages::FLUID_TO_ADD,
        stages::FLUID_TO_ADD_BEFORE_START,
        stages::FLUID_TO_ADD_AFTER_START,
        dipstick::DIPSTICK_VOLUME,
        dipstick::LEVEL_ERROR_ON_SLOPE,
        packs::PACKS_TO_BUY,
        expansion::VOLUME_FACTOR,
        expansion::OIL_VOLUME_FACTOR,
        expansion::OIL_DENSITY_AT,
        expansion::OIL_BASE_DENSITY,
        level::OIL_VOLUME_AT,
        level::LEVEL_RISE,
        viscosity::VISCOSITY_AT,
        viscosity_index::VISCOSITY_INDEX,
        grade::ENGINE_OIL_GRADE,
        grade::GEAR_OIL_GRADE,
    ],
};
