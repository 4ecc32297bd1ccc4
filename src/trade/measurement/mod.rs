//! Measurement: how uncertain a reading is, and what it proves about a limit.

mod acceptance;
mod conformity;
mod coverage;
mod decision;
mod freedom;
mod table;
mod uncertainty;

pub use acceptance::false_accept_share;
pub use conformity::{guard_band, probability_above, probability_below, probability_between};
pub use coverage::{Sides, coverage_factor, normal_factor};
pub use decision::{Decision, Rule, decide};
pub use freedom::{effective_freedom, freedom_share};
pub use table::MEASUREMENT;
pub use uncertainty::{
    Spread, combined_uncertainty, expanded_uncertainty, resolution_uncertainty, standard_uncertainty,
};
