//! Evidence: how many clean cold mornings prove what about a fault that comes and goes.
//!
//! All of it counts independent trials: two starts on one morning are one trial.

mod comparison;
mod rate;
mod run;
mod table;
mod words;

pub use comparison::{Counts, fewer_after, unlike};
pub use rate::{fault_rate_highest, fault_rate_lowest, rule_of_three};
pub use run::{clean_mornings_needed, clean_run_probability};
pub use table::EVIDENCE;
pub use words::clean_run_in_words;
