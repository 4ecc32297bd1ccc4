//! The cooler and its lines: what flows, what heat it carries, what pressure that takes.

mod flow;
mod heat;
mod line;

use crate::trade::Subject;

pub use flow::cooler_flow;
pub use heat::{HeatFlow, oil_specific_heat};
pub use line::{LAMINAR_BELOW, Line, Oil, laminar_flow, laminar_pressure_drop, reynolds_number};

/// The functions about the cooler.
pub const COOLER: Subject = Subject {
    name: "cooler",
    functions: &[
        flow::COOLER_FLOW,
        heat::HEAT_CARRIED,
        heat::OIL_SPECIFIC_HEAT,
        line::REYNOLDS_NUMBER,
        line::LAMINAR_PRESSURE_DROP,
        line::LAMINAR_FLOW,
    ],
};
