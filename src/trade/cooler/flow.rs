//! The flow of the return line, from what is caught.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

pub(super) const COOLER_FLOW: Function = Function {
    name: "cooler_flow",
    summary: "the flow through the cooler, from what was caught at its return in a time",
    parameters: &[
        Parameter::amount("caught", "L", "what was caught in the measuring jug").at_least("0"),
        Parameter::amount("time", "min", "how long it ran").above("0"),
    ],
    result: Shape::Amount("L/min"),
    call: |given| {
        cooler_flow(given.number("caught")?, given.number("time")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("time", "must be more than 0 s"))
    },
    assumes: &[
        "the fluid is at the temperature, and the engine at the speed, that the vehicle's flow test asks for",
    ],
    source: "volume over time",
    example: "cooler_flow(1 qt, time = 22 s)",
};

/// What flows in a unit of time when `caught` came in `time`. `None` when no time passed.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::cooler::cooler_flow;
///
/// assert_eq!(cooler_flow(1.into(), Num::ratio(1, 2).unwrap()), Some(2.into()));
/// ```
pub fn cooler_flow(caught: Num, time: Num) -> Option<Num> {
    caught.checked_div(time)
}
