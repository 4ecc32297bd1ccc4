//! Buying fluid.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

pub(super) const PACKS_TO_BUY: Function = Function {
    name: "packs_to_buy",
    summary: "how many whole packs cover what is needed",
    parameters: &[
        Parameter::amount("needed", "L", "what the job takes").at_least("0"),
        Parameter::amount("pack", "L", "what one pack holds").above("0"),
        Parameter::amount("in_stock", "L", "what is there already, of the same fluid")
            .at_least("0")
            .or("0 L"),
        Parameter::amount("spare", "%", "what to have over, as a share of what is needed")
            .at_least("0")
            .at_most("100")
            .or("0 %"),
    ],
    result: Shape::Number,
    call: |given| {
        let spare = Num::ONE + given.number("spare")? * Num::ratio(1, 100).unwrap_or(Num::ZERO);
        let missing = given.number("needed")? * spare - given.number("in_stock")?;
        packs_to_buy(missing, given.number("pack")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("needed", "so many packs cannot be counted; check the sizes"))
    },
    assumes: &[],
    source: "division, rounded up to whole packs",
    example: "packs_to_buy(9 L, pack = 1 qt, spare = 10 %)",
};

/// How many packs of size `pack` cover `missing`, both in one unit; none when nothing is missing. `None` when a pack
/// holds nothing or the number is too large to count.
///
/// ```
/// use bayhand::trade::fluid::packs_to_buy;
///
/// assert_eq!(packs_to_buy(9.into(), 4.into()), Some(3.into()));
/// ```
pub fn packs_to_buy(missing: Num, pack: Num) -> Option<Num> {
    if pack <= Num::ZERO {
        return None;
    }
    let packs = missing.max(Num::ZERO).checked_div(pack)?;
    let whole = packs.exact()?.ceil();
    Num::ratio(*whole.numer(), 1)
}
