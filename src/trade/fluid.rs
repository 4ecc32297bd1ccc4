//! Fluid: changing it in part, measuring it, buying it.

use super::{Answer, Function, Given, Parameter, Refusal, Shape, Subject};
use crate::quantity::Num;

/// The functions about fluid.
pub const FLUID: Subject = Subject {
    name: "fluid",
    functions: &[Function {
        name: "old_fluid_left",
        summary: "the share of old fluid that is left after draining and refilling several times",
        parameters: &[
            Parameter::amount("drained", "L", "what comes out each time and is replaced").at_least("0"),
            Parameter::amount("holds", "L", "what the whole unit holds, converter and cooler included")
                .above("0"),
            Parameter::number("times", "how often it is drained and refilled")
                .at_least("0")
                .at_most("100")
                .or("1"),
        ],
        result: Shape::Amount("%"),
        call: old_fluid_left_row,
        assumes: &["new and old fluid mix fully between two drains"],
        source: "(1 - drained / holds)^times: each drain takes the same share of what is left",
        example: "old_fluid_left(4 L, holds = 7 L, times = 2)",
    }],
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

fn old_fluid_left_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let (drained, holds) = (given.number("drained")?, given.number("holds")?);
    let times = given.whole("times")?;
    let left = old_fluid_left(drained, holds, times)
        .ok_or_else(|| Refusal::of("drained", "no more can be drained than the unit holds"))?;
    Ok(Answer::Number(left * 100.into()))
}
