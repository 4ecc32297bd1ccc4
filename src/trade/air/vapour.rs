//! The vapour of a solvent or fuel in a bay, and how near it comes to what explodes.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

/// Litres that a mole of gas takes up at 25 °C and 101.325 kPa.
const MOLAR_VOLUME: (i128, i128) = (2445, 100);

const NO_SPARK: &str = "vapour gathers near its source, in pits and above the floor: there it can explode while the average looks harmless";

pub(super) const VAPOUR_LEVEL: Function = Function {
    name: "vapour_level",
    summary: "the level of a vapour when an amount of liquid evaporates in a closed bay",
    parameters: &[
        Parameter::amount("evaporated", "g", "the liquid that evaporates").at_least("0"),
        Parameter::number("molar_mass", "grams in a mole of it, from its safety data sheet")
            .at_least("2")
            .at_most("1000"),
        Parameter::amount("volume", "m³", "the volume of the bay").above("0").at_most("1000000"),
    ],
    result: Shape::Amount("ppm"),
    call: |given| {
        let (mass, molar_mass) = (given.number("evaporated")?, given.number("molar_mass")?);
        let level = vapour_level(mass, molar_mass, given.number("volume")?)
            .ok_or_else(|| Refusal::of("volume", "must be more than 0 m³"))?;
        if level >= 1_000_000.into() {
            return Err(Refusal::of(
                "evaporated",
                "that is more vapour than the bay has room for; check the units",
            ));
        }
        Ok(Answer::Number(level))
    },
    assumes: &["air at 25 °C and 101.3 kPa, no fresh air, and vapour that is spread evenly", NO_SPARK],
    source: "moles times molar volume 24.45 L, over the volume of the bay",
    example: "vapour_level(200 g, molar_mass = 58.08, volume = 60 m³)",
};

pub(super) const SHARE_OF_EXPLOSIVE_LIMIT: Function = Function {
    name: "share_of_explosive_limit",
    summary: "a level of vapour as a share of its lower explosive limit",
    parameters: &[
        Parameter::amount("level", "ppm", "the level of the vapour").at_least("0").at_most("1000000"),
        Parameter::amount("limit", "%", "its lower explosive limit, from its safety data sheet")
            .above("0")
            .at_most("100"),
    ],
    result: Shape::Amount("%"),
    call: |given| {
        let (level, limit) = (given.number("level")?, given.number("limit")?);
        // A level in ppm over a limit in per cent.
        level
            .checked_div(limit * 100.into())
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("limit", "must be more than 0 %"))
    },
    assumes: &[NO_SPARK, "no share is a permission: no flame, spark or hot work while vapour is about"],
    source: "level over limit",
    example: "share_of_explosive_limit(1400 ppm, limit = 2.5 %)",
};

/// The level in ppm when so many grams of a substance of a molar mass in g/mol evaporate into so many m³, at 25 °C and
/// 101.325 kPa; exact. `None` without a volume or a molar mass.
///
/// ```
/// use bayhand::trade::air::vapour_level;
///
/// assert_eq!(vapour_level(40.into(), 40.into(), 10.into()), Some(2445.into()));
/// ```
pub fn vapour_level(mass: Num, molar_mass: Num, volume: Num) -> Option<Num> {
    let (litres, whole) = MOLAR_VOLUME;
    let moles = mass.checked_div(molar_mass)?;
    // A litre in a cubic metre is a thousand ppm.
    (moles * Num::ratio(litres, whole)? * 1000.into()).checked_div(volume)
}
