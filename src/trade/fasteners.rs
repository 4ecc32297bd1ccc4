//! Fasteners: what to set the wrench to, and what the bolt gets.

use super::{Answer, Function, Given, Parameter, Refusal, Shape, Subject};
use crate::quantity::Num;

/// The functions about fasteners.
pub const FASTENERS: Subject = Subject {
    name: "fasteners",
    functions: &[Function {
        name: "wrench_setting",
        summary: "what to set a torque wrench to when an adapter changes its length",
        parameters: &[
            Parameter::amount("torque", "N·m", "the torque that the fastener must get").at_least("0"),
            Parameter::amount("wrench", "mm", "from the middle of the grip to the square drive").above("0"),
            Parameter::amount("adapter", "mm", "from the square drive to the fastener").at_least("0"),
            Parameter::choice("way", WAYS, "where the adapter points").or("longer"),
        ],
        result: Shape::Amount("N·m"),
        call: wrench_setting_row,
        assumes: &["the adapter is in line with the wrench, which is pulled at the middle of its grip"],
        source: "equilibrium of the lever: S = T·L / (L ± A)",
        example: "wrench_setting(35 lbf·ft, wrench = 18 in, adapter = 2 in)",
    }],
};

/// Away from the grip, back towards it, or to the side, where the length does not change.
const WAYS: &[&str] = &["longer", "shorter", "right angle"];

/// What to set a wrench of length `wrench` to, so that the fastener at the end of an adapter of length `adapter`
/// gets `torque`; both lengths in one unit, the result in the unit of `torque`. An adapter that points back
/// towards the grip has a negative length. `None` when the lengths leave no lever.
///
/// ```
/// use bayhand::trade::fasteners::wrench_setting;
///
/// assert_eq!(wrench_setting(30.into(), 12.into(), 3.into()), Some(24.into()));
/// ```
pub fn wrench_setting(torque: Num, wrench: Num, adapter: Num) -> Option<Num> {
    let lever = wrench + adapter;
    if lever <= Num::ZERO {
        return None;
    }
    (torque * wrench).checked_div(lever)
}

fn wrench_setting_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let adapter = match given.text("way")? {
        "shorter" => -given.number("adapter")?,
        "right angle" => Num::ZERO,
        _ => given.number("adapter")?,
    };
    wrench_setting(given.number("torque")?, given.number("wrench")?, adapter)
        .map(Answer::Number)
        .ok_or_else(|| Refusal::of("adapter", "an adapter that points back must be shorter than the wrench"))
}
