//! What a run of clean mornings proves, in words that can be repeated.

use super::comparison::all_before;
use super::shared::{ALIKE, INDEPENDENT, count, counted};
use crate::trade::{Answer, Function, Given, Refusal, Shape};

/// What is left to luck when a run is taken for long enough.
const ENOUGH: f64 = 0.05;
/// A chance that is exactly on a mark counts as such in spite of rounding.
const ROUNDING: f64 = 1e-9;
/// More mornings than any count of faults that can be given needs.
const MOST_MORNINGS: u32 = 10_000_000;

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
    assumes: &[INDEPENDENT, ALIKE],
    source: "Fisher's exact test: the faults there were, all before the repair; it allows for how few mornings there were",
    example: "clean_run_in_words(faults = 3, mornings = 10, clean = 6)",
};

/// A sentence without a full stop; after it, unless the run is long enough, how many clean mornings in a row leave a
/// chance of 5 in 100. All three counts are at least 1; `None` when there are more faults than mornings.
///
/// ```
/// use bayhand::trade::evidence::clean_run_in_words;
///
/// let said = clean_run_in_words(3, 3, 1).unwrap();
/// assert!(said.contains("one clean morning would still come about 25 times in 100"));
/// ```
pub fn clean_run_in_words(faults: u32, mornings: u32, clean: u32) -> Option<String> {
    let chance = all_before(faults, mornings, clean)?;
    let needed = needed(faults, mornings)?;
    let said =
        format!("if nothing had been fixed, {} would still come {}", in_a_row(clean), how_often(chance));
    Some(if clean < needed {
        format!("{said}; {} would bring it to 5 times in 100 or fewer", in_a_row(needed))
    } else {
        said
    })
}

/// The fewest clean mornings in a row that leave no more than enough to luck.
fn needed(faults: u32, mornings: u32) -> Option<u32> {
    let is_enough =
        |clean| all_before(faults, mornings, clean).is_some_and(|chance| chance <= ENOUGH + ROUNDING);
    let (mut too_few, mut enough) = (0, MOST_MORNINGS);
    while enough - too_few > 1 {
        let middle = too_few + (enough - too_few) / 2;
        if is_enough(middle) { enough = middle } else { too_few = middle }
    }
    is_enough(enough).then_some(enough)
}

fn in_a_row(mornings: u32) -> String {
    match mornings {
        1 => "one clean morning".to_owned(),
        _ => format!("{mornings} clean mornings in a row"),
    }
}

fn how_often(chance: f64) -> String {
    let times = libm::round(chance * 100.0);
    if chance < 0.001 - ROUNDING {
        "fewer than once in 1000 times".to_owned()
    } else if chance < 0.01 - ROUNDING {
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
    clean_run_in_words(counted(given, "faults")?, counted(given, "mornings")?, counted(given, "clean")?)
        .map(Answer::Text)
        .ok_or_else(|| Refusal::of("faults", "must be at least 1 and at most the number of mornings"))
}
