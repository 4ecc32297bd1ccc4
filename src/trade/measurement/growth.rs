//! How a part grows with heat.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Shape};

pub(super) const HEAT_GROWTH: Function = Function {
    name: "heat_growth",
    summary: "by how much a part grows when it is warmed; below zero when it is cooled",
    parameters: &[
        Parameter::amount("length", "mm", "the length or diameter when it is cold").at_least("0").at_most("100000"),
        Parameter::amount(
            "coefficient",
            "ppm/K",
            "of its material, from a table; commonly 11 to 13 ppm/K for steel, 17 to 24 ppm/K for aluminium alloys",
        )
        .at_least("0")
        .at_most("300"),
        Parameter::amount("warming", "K", "by how much it is warmed").at_least("-300").at_most("1500"),
    ],
    result: Shape::Amount("mm"),
    call: |given| {
        Ok(Answer::Number(heat_growth(
            given.number("length")?,
            given.number("coefficient")?,
            given.number("warming")?,
        )))
    },
    assumes: &[
        "the whole part has one temperature, and its coefficient does not change on the way",
        "how warm a part may be made, the vehicle's service information says",
    ],
    source: "length·coefficient·difference",
    example: "heat_growth(72 mm, coefficient = 12 ppm/K, warming = 80 K)",
};

/// The growth in the unit of `length`, from a coefficient in parts per million a kelvin and a warming in kelvins; exact.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::measurement::heat_growth;
///
/// assert_eq!(heat_growth(1000.into(), 12.into(), 100.into()), Num::ratio(6, 5).unwrap());
/// ```
pub fn heat_growth(length: Num, coefficient: Num, warming: Num) -> Num {
    length * coefficient * warming * Num::ratio(1, 1_000_000).unwrap_or(Num::ZERO)
}
