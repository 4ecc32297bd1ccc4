//! The table of this subject.

use super::{change, expansion, grade, level, packs, stages, viscosity, viscosity_index};
use crate::trade::Subject;

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
