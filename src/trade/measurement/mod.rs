//! Measurement: how uncertain a reading is, what it proves about a limit, and what heat does to a length.

mod acceptance;
mod conformity;
mod coverage;
mod decision;
mod difference;
mod freedom;
mod growth;
mod shared;
mod uncertainty;

use crate::trade::Subject;

pub use acceptance::false_accept_share;
pub use conformity::{guard_band, probability_above, probability_below, probability_between};
pub use coverage::{Sides, coverage_factor, normal_factor};
pub use decision::{Decision, Rule, decide};
pub use difference::en_number;
pub use freedom::{effective_freedom, freedom_share};
pub use growth::heat_growth;
pub use uncertainty::{
    Spread, combined_uncertainty, expanded_uncertainty, resolution_uncertainty, standard_uncertainty,
};

/// The functions about measurement.
///
/// Temperatures are given as differences here, since an uncertainty is one: for "at most 80 °C" take the reading less
/// the limit, and 0 K as the limit.
pub const MEASUREMENT: Subject = Subject {
    name: "measurement",
    functions: &[
        uncertainty::STANDARD,
        uncertainty::RESOLUTION,
        uncertainty::COMBINED,
        uncertainty::EXPANDED,
        freedom::SHARE,
        freedom::EFFECTIVE,
        coverage::NORMAL,
        coverage::STUDENT,
        conformity::ABOVE,
        conformity::BELOW,
        conformity::BETWEEN,
        conformity::GUARD_BAND,
        acceptance::FALSE_ACCEPTS,
        decision::ABOVE,
        decision::BELOW,
        decision::BETWEEN,
        difference::EN_NUMBER,
        growth::HEAT_GROWTH,
    ],
};
