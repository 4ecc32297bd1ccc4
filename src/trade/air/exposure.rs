//! What a person has breathed over a shift.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape, Sort};

/// Grams in a mole of carbon monoxide.
const MOLAR_MASS: f64 = 28.01;
/// Litres that a mole of gas takes up at 25 °C and 101.325 kPa.
const MOLAR_VOLUME: f64 = 24.45;

const AIR_STATE: &str = "air at 25 °C and 101.3 kPa";

pub(super) const AVERAGE: Function = Function {
    name: "time_weighted_average",
    summary: "the average level over a shift, from the levels in its parts times how long each was",
    parameters: &[
        Parameter::amount(
            "shift",
            "h",
            "the time over which the limit is averaged; 8 h for the usual limits",
        )
        .above("0"),
        Parameter::amount("doses", "ppm·h", "level times time of each part, such as 150 ppm * 2 h")
            .at_least("0")
            .many(),
    ],
    result: Shape::Amount("ppm"),
    call: |given| {
        time_weighted_average(given.number("shift")?, given.many("doses")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("shift", "must be more than 0 h"))
    },
    assumes: &["time that is not listed was spent in clean air"],
    source: "29 CFR 1910.1000(d)(1)",
    example: "time_weighted_average(8 h, 150 ppm * 2 h, 75 ppm * 2 h, 50 ppm * 4 h)",
};

pub(super) const MIXTURE: Function = Function {
    name: "exposure_mixture",
    summary: "several gases at once, each as a share of its own limit; above 1 the limit of the mixture is passed",
    parameters: &[Parameter::new(
        "shares",
        Sort::Number,
        "the level of each gas divided by its limit, such as 45 ppm / 200 ppm",
    )
    .at_least("0")
    .many()],
    result: Shape::Number,
    call: |given| Ok(Answer::Number(exposure_mixture(given.many("shares")?))),
    assumes: &["the gases act on the body in the same way"],
    source: "29 CFR 1910.1000(d)(2)",
    example: "exposure_mixture(500 ppm / 1000 ppm, 45 ppm / 200 ppm, 40 ppm / 200 ppm)",
};

pub(super) const MASS: Function = Function {
    name: "carbon_monoxide_mass",
    summary: "a level of carbon monoxide in mg/m³",
    parameters: &[Parameter::amount("level", "ppm", "the level of carbon monoxide").at_least("0")],
    result: Shape::Amount("mg/m³"),
    call: |given| Answer::float(carbon_monoxide_mass(given.float("level")?)),
    assumes: &[AIR_STATE],
    source: "molar mass 28.01 g over molar volume 24.45 L, as in the NIOSH documents",
    example: "carbon_monoxide_mass(35 ppm)",
};

pub(super) const LEVEL: Function = Function {
    name: "carbon_monoxide_level",
    summary: "an amount of carbon monoxide in mg/m³ as a level in ppm",
    parameters: &[
        Parameter::amount("mass", "mg/m³", "the amount of carbon monoxide in the air").at_least("0")
    ],
    result: Shape::Amount("ppm"),
    call: |given| Answer::float(carbon_monoxide_level(given.float("mass")?)),
    assumes: &[AIR_STATE],
    source: "molar mass 28.01 g over molar volume 24.45 L, as in the NIOSH documents",
    example: "carbon_monoxide_level(40 mg/m³)",
};

/// The average level over `shift`, from doses, each a level times its time; in the units that the doses are made of.
/// `None` for a shift of no time.
///
/// ```
/// use bayhand::trade::air::time_weighted_average;
///
/// let doses = [300.into(), 150.into(), 200.into()];
/// assert_eq!(time_weighted_average(8.into(), &doses).unwrap().to_f64(), 81.25);
/// ```
pub fn time_weighted_average(shift: Num, doses: &[Num]) -> Option<Num> {
    exposure_mixture(doses).checked_div(shift)
}

/// The sum of the shares that each gas has of its own limit.
pub fn exposure_mixture(shares: &[Num]) -> Num {
    shares.iter().fold(Num::ZERO, |sum, share| sum + *share)
}

/// Carbon monoxide in mg/m³ from ppm, at 25 °C and 101.325 kPa.
pub fn carbon_monoxide_mass(level: f64) -> f64 {
    level * MOLAR_MASS / MOLAR_VOLUME
}

/// Carbon monoxide in ppm from mg/m³: the other way round of [`carbon_monoxide_mass`].
pub fn carbon_monoxide_level(mass: f64) -> f64 {
    mass * MOLAR_VOLUME / MOLAR_MASS
}
