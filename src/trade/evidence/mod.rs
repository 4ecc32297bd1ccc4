//! Evidence: how many clean cold mornings prove what about a fault that comes and goes.
//!
//! All of it counts independent trials: two starts on one morning are one trial.

mod comparison;
mod rate;
mod run;
mod shared;
mod words;

use crate::trade::Subject;

pub use comparison::{Counts, all_before, fewer_after, unlike};
pub use rate::{fault_rate_highest, fault_rate_lowest, rule_of_three};
pub use run::{clean_mornings_needed, clean_run_probability};
pub use words::clean_run_in_words;

/// The functions about evidence.
pub const EVIDENCE: Subject = Subject {
    name: "evidence",
    functions: &[
        run::PROBABILITY,
        run::NEEDED,
        words::IN_WORDS,
        rate::LOWEST,
        rate::HIGHEST,
        rate::RULE_OF_THREE,
        comparison::BEFORE_AND_AFTER,
    ],
};
