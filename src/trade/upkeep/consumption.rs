//! What is used up on the way: fuel, or oil that is topped up.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

pub(super) const CONSUMPTION: Function = Function {
    name: "consumption",
    summary: "what is used up on a distance, a hundred kilometres unless said otherwise: fuel, or oil that is topped up",
    parameters: &[
        Parameter::amount("used", "L", "what was filled in to come back to the same level").at_least("0"),
        Parameter::amount("driven", "km", "how far it went meanwhile").above("0"),
        Parameter::amount("on", "km", "the distance on which it is told").above("0").or("100 km"),
    ],
    result: Shape::Amount("L"),
    call: |given| {
        consumption(given.number("used")?, given.number("driven")?, given.number("on")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("driven", "must be more than 0 km"))
    },
    assumes: &["it was filled to the same level both times"],
    source: "volume over distance",
    example: "consumption(42 L, driven = 560 km, on = 100 km)",
};

/// What is used on the distance `on` when `used` was on `driven`, in the unit of `used`; both distances in one unit;
/// exact. `None` when nothing was driven.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::upkeep::consumption;
///
/// assert_eq!(consumption(42.into(), 560.into(), 100.into()), Num::ratio(15, 2));
/// ```
pub fn consumption(used: Num, driven: Num, on: Num) -> Option<Num> {
    (used * on).checked_div(driven)
}
