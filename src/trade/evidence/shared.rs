//! What several functions of this subject take and say.

use crate::trade::{Given, Parameter, Refusal};

pub(super) const RATE: Parameter =
    Parameter::amount("rate", "%", "on what share of cold mornings the fault came before").at_most("100");
pub(super) const CONFIDENCE: Parameter =
    Parameter::amount("confidence", "%", "how sure to be").above("0").below("100").or("95 %");

pub(super) const INDEPENDENT: &str = "independent mornings only: two starts on one morning count as one";
pub(super) const ALIKE: &str = "the mornings are alike: as cold, as long parked, driven in the same way";
pub(super) const KNOWN_RATE: &str =
    "the old rate is taken as known; before_and_after allows for how few mornings it came from";

pub(super) const fn count(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::number(name, meaning).at_least("0").at_most("100000")
}

pub(super) fn counted(given: &Given<'_>, name: &str) -> Result<u32, Refusal> {
    u32::try_from(given.whole(name)?).map_err(|_| Refusal::of(name, "must be at least 0"))
}
