//! The table of this subject.

use super::{flow, heat, line};
use crate::trade::Subject;

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
