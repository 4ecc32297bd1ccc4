//! How much of the old fluid stays when not all of it comes out.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// A person gives up before this; it also bounds the search for a number of drains.
const MOST_DRAINS: i32 = 100;

const MIXED: &str = "new and old fluid mix fully between two drains";

const DRAINED: Parameter =
    Parameter::amount("drained", "L", "what comes out each time and is replaced").at_least("0");
const HOLDS: Parameter =
    Parameter::amount("holds", "L", "what the whole unit holds, converter and cooler included").above("0");

pub(super) const OLD_FLUID_LEFT: Function = Function {
    name: "old_fluid_left",
    summary: "the share of old fluid that is left after draining and refilling several times",
    parameters: &[
        DRAINED,
        HOLDS,
        Parameter::number("times", "how often it is drained and refilled")
            .at_least("0")
            .at_most("100")
            .or("1"),
    ],
    result: Shape::Amount("%"),
    call: old_fluid_left_row,
    assumes: &[MIXED],
    source: "(1 - drained / holds)^times: each drain takes the same share of what is left",
    example: "old_fluid_left(4 L, holds = 7 L, times = 2)",
};

pub(super) const OLD_FLUID_LEFT_BY_EXCHANGE: Function = Function {
    name: "old_fluid_left_by_exchange",
    summary: "the share of old fluid that is left when new fluid goes in as fast as old comes out",
    parameters: &[Parameter::amount("passed", "L", "the new fluid that went in").at_least("0"), HOLDS],
    result: Shape::Amount("%"),
    call: |given| {
        let (passed, holds) = (given.number("passed")?, given.number("holds")?);
        let left =
            old_fluid_left_by_exchange(passed, holds).ok_or_else(|| Refusal::of("holds", "holds nothing"))?;
        Ok(Answer::Number(left * 100.into()))
    },
    assumes: &["what goes in mixes at once with all that is there"],
    source: "washing out of a well-mixed volume: e^(-passed / holds)",
    example: "old_fluid_left_by_exchange(14 L, holds = 7 L)",
};

pub(super) const DRAINS_NEEDED: Function = Function {
    name: "drains_needed",
    summary: "how often to drain and refill until no more than this share of old fluid is left",
    parameters: &[
        DRAINED,
        HOLDS,
        Parameter::amount("left", "%", "the share of old fluid that may stay").above("0").at_most("100"),
    ],
    result: Shape::Number,
    call: drains_needed_row,
    assumes: &[MIXED],
    source: "the smallest whole n with (1 - drained / holds)^n not above the share",
    example: "drains_needed(4 L, holds = 7 L, left = 5 %)",
};

/// The share of old fluid, from 0 to 1, that is left after `times` drains that each replace `drained` of `holds`;
/// both in the same unit. `None` when more is drained than the unit holds, or it holds nothing.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::fluid::old_fluid_left;
///
/// assert_eq!(old_fluid_left(4.into(), 7.into(), 2), Num::ratio(9, 49));
/// ```
pub fn old_fluid_left(drained: Num, holds: Num, times: i32) -> Option<Num> {
    let left = Num::ONE - drained.checked_div(holds)?;
    if left.is_negative() || times < 0 {
        return None;
    }
    left.powi(times)
}

/// The share of old fluid, from 0 to 1, that is left when `passed` has gone into a unit of `holds` while as much
/// came out; both in the same unit. `None` when the unit holds nothing.
///
/// ```
/// use bayhand::trade::fluid::old_fluid_left_by_exchange;
///
/// let left = old_fluid_left_by_exchange(7.into(), 7.into()).unwrap();
/// assert!((left.to_f64() - 0.367_879).abs() < 1e-6);
/// ```
pub fn old_fluid_left_by_exchange(passed: Num, holds: Num) -> Option<Num> {
    let times = passed.checked_div(holds)?;
    Some(Num::approx(libm::exp(-times.to_f64())))
}

/// How many drains of `drained` out of `holds` (same unit) leave no more than the share `left`, from 0 to 1, of old
/// fluid. `None` when a hundred do not.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::fluid::drains_needed;
///
/// assert_eq!(drains_needed(4.into(), 7.into(), Num::ratio(5, 100).unwrap()), Some(4));
/// ```
pub fn drains_needed(drained: Num, holds: Num, left: Num) -> Option<i32> {
    let stays = |times| old_fluid_left(drained, holds, times);
    (0..=MOST_DRAINS).find(|times| stays(*times).is_some_and(|stays| stays <= left))
}

fn too_much() -> Refusal {
    Refusal::of("drained", "no more can be drained than the unit holds")
}

fn old_fluid_left_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let (drained, holds) = (given.number("drained")?, given.number("holds")?);
    let left = old_fluid_left(drained, holds, given.whole("times")?).ok_or_else(too_much)?;
    Ok(Answer::Number(left * 100.into()))
}

fn drains_needed_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let (drained, holds, left) = (given.number("drained")?, given.number("holds")?, given.number("left")?);
    if drained > holds {
        return Err(too_much());
    }
    let share = left.checked_div(100.into()).unwrap_or(left);
    let times = drains_needed(drained, holds, share).ok_or_else(|| {
        Refusal::of("drained", format!("{MOST_DRAINS} drains do not get there; drain more each time"))
    })?;
    Ok(Answer::Number(i64::from(times).into()))
}
