//! What a run of clean mornings proves, in words that can be repeated.

use super::run::{clean_mornings_needed, clean_run_probability};
use super::shared::{ALIKE, INDEPENDENT, KNOWN_RATE, count};
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Refusal, Shape};

pub(super) const IN_WORDS: Function = Function {
    name: "clean_run_in_words",
    summary: "what a run of clean mornings proves, in words that can be repeated",
    parameters: &[
        count("faults", "mornings with the fault before the repair").at_least("1"),
        count("mornings", "all mornings tried before it").at_least("1"),
        count("clean", "clean mornings in a row since").at_least("1"),
    ],
    result: Shape::Text,
    call: row,
    assumes: &[INDEPENDENT, ALIKE, KNOWN_RATE],
    source: "probability of no fault in n independent trials: (1 - faults/mornings)^n",
    example: "clean_run_in_words(faults = 3, mornings = 10, clean = 6)",
};

/// A sentence without a full stop; after it, unless the run is long enough, how many clean mornings in a row leave a
/// chance of 5 in 100. All three counts are at least 1; `None` when there are more faults than mornings, or none.
pub fn clean_run_in_words(faults: i32, mornings: i32, clean: i32) -> Option<String> {
    let rate = Num::ratio(faults.into(), mornings.into())?;
    let chance = clean_run_probability(rate, clean)?;
    let needed = clean_mornings_needed(rate, Num::ratio(95, 100)?)?;
    let said = format!(
        "if nothing had been fixed, {} would still come {}",
        in_a_row(clean),
        how_often(chance.to_f64())
    );
    Some(if clean < needed {
        format!("{said}; {} would bring it to 5 times in 100 or fewer", in_a_row(needed))
    } else {
        said
    })
}

fn in_a_row(mornings: i32) -> String {
    match mornings {
        1 => "one clean morning".to_owned(),
        _ => format!("{mornings} clean mornings in a row"),
    }
}

fn how_often(chance: f64) -> String {
    let times = libm::round(chance * 100.0);
    if chance < 0.001 {
        "fewer than once in 1000 times".to_owned()
    } else if chance < 0.01 {
        "fewer than once in 100 times".to_owned()
    } else if times > 99.0 {
        "more than 99 times in 100".to_owned()
    } else if times < 2.0 {
        "about once in 100 times".to_owned()
    } else {
        format!("about {times} times in 100")
    }
}

fn row(given: &Given<'_>) -> Result<Answer, Refusal> {
    clean_run_in_words(given.whole("faults")?, given.whole("mornings")?, given.whole("clean")?)
        .map(Answer::Text)
        .ok_or_else(|| Refusal::of("faults", "must be at least 1 and at most the number of mornings"))
}
