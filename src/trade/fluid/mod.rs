//! Fluid: changing it in part, filling it in stages, how it grows with heat, how thick it is, buying it.

mod change;
mod expansion;
mod grade;
mod level;
mod packs;
mod stages;
mod table;
mod viscosity;
mod viscosity_index;
mod viscosity_index_table;

pub use change::{drains_needed, old_fluid_left, old_fluid_left_by_exchange};
pub use expansion::{Base, base_density, lubricating_oil_expansion, volume_factor};
pub use grade::{engine_oil_grade, gear_oil_grade};
pub use level::{Warming, level_rise, oil_volume_at};
pub use packs::packs_to_buy;
pub use stages::Stages;
pub use table::FLUID;
pub use viscosity::{KnownViscosity, viscosity_at, viscosity_of_z, z_of_viscosity};
pub use viscosity_index::viscosity_index;
