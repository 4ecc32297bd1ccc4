//! The cooler and its lines: what flows, what heat it carries, what pressure that takes.

mod flow;
mod heat;
mod line;
mod table;

pub use flow::cooler_flow;
pub use heat::{HeatFlow, oil_specific_heat};
pub use line::{LAMINAR_BELOW, Line, Oil, laminar_flow, laminar_pressure_drop, reynolds_number};
pub use table::COOLER;
