//! What engaging a range does to the idle.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

pub(super) const IDLE_DROP: Function = Function {
    name: "idle_drop",
    summary: "the share by which the idle drops when a range engages",
    parameters: &[
        Parameter::amount("neutral", "rpm", "the idle speed in neutral").above("0"),
        Parameter::amount("engaged", "rpm", "the idle speed with the range engaged, brakes held")
            .at_least("0"),
    ],
    result: Shape::Amount("%"),
    call: |given| {
        let (neutral, engaged) = (given.number("neutral")?, given.number("engaged")?);
        if engaged > neutral {
            return Err(Refusal::of(
                "engaged",
                "must be at most the idle in neutral; were the two turned round?",
            ));
        }
        idle_drop(neutral, engaged)
            .map(|share| Answer::Number(share * 100.into()))
            .ok_or_else(|| Refusal::of("neutral", "the engine must turn"))
    },
    assumes: &["the idle control does not make up for the drop before it is read"],
    source: "common practice: the difference over the speed in neutral",
    example: "idle_drop(750 rpm, engaged = 650 rpm)",
};

/// The drop as a share of the idle in neutral; exact. `None` when the engine stands.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::converter::idle_drop;
///
/// assert_eq!(idle_drop(750.into(), 600.into()), Num::ratio(1, 5));
/// ```
pub fn idle_drop(neutral: Num, engaged: Num) -> Option<Num> {
    (neutral - engaged).checked_div(neutral)
}
