//! Evidence: how many clean cold mornings prove what about a fault that comes and goes.
//!
//! All of it counts independent trials: two starts on one morning are one trial.

mod comparison;
mod rate;
mod run;
mod words;

pub use comparison::{Counts, fewer_after, unlike};
pub use rate::{fault_rate_highest, fault_rate_lowest, rule_of_three};
pub use run::{clean_mornings_needed, clean_run_probability};
pub use words::clean_run_in_words;

use super::{Given, Parameter, Refusal, Subject};

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

const RATE: Parameter = Parameter::amount(
    "rate",
    "%",
    "on what share of cold mornings the fault came before",
)
.at_most("100");
const CONFIDENCE: Parameter = Parameter::amount("confidence", "%", "how sure to be")
    .above("0")
    .below("100")
    .or("95 %");

const INDEPENDENT: &str = "independent mornings only: two starts on one morning count as one";
const ALIKE: &str = "the mornings are alike: as cold, as long parked, driven in the same way";
const KNOWN_RATE: &str =
    "the old rate is taken as known; before_and_after allows for how few mornings it came from";

const fn count(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::number(name, meaning).at_least("0").at_most("100000")
}

fn counted(given: &Given<'_>, name: &str) -> Result<u32, Refusal> {
    u32::try_from(given.whole(name)?).map_err(|_| Refusal::of(name, "must be at least 0"))
}
