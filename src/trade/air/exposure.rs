//! What a person has breathed over a shift.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape, Sort};

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
        Parameter::amount("level", "ppm", "the level in one part of the shift, each with its time")
            .at_least("0")
            .many(),
        Parameter::amount("time", "h", "how long that part was").at_least("0").many(),
    ],
    result: Shape::Amount("ppm"),
    call: average_row,
    assumes: &["time that is not listed was spent in clean air"],
    source: "29 CFR 1910.1000(d)(1)",
    example: "time_weighted_average(8 h, level = 150 ppm, time = 2 h, level = 75 ppm, time = 2 h, level = 50 ppm, time = 4 h)",
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

/// A part of a shift: a level, and how long it was met.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// The level.
    pub level: Num,
    /// How long, in the unit of the shift.
    pub time: Num,
}

/// The average level over `shift`, in the unit of the levels; exact. `None` for a shift of no time, and where the parts
/// are longer than the shift.
///
/// ```
/// use bayhand::trade::air::{Part, time_weighted_average};
///
/// let parts = [(150, 2), (75, 2), (50, 4)].map(|(level, time): (i64, i64)| Part { level: level.into(), time: time.into() });
/// assert_eq!(time_weighted_average(8.into(), &parts).unwrap().to_f64(), 81.25);
/// assert_eq!(time_weighted_average(7.into(), &parts), None);
/// ```
pub fn time_weighted_average(shift: Num, parts: &[Part]) -> Option<Num> {
    let sum = |of: fn(&Part) -> Num| parts.iter().map(of).fold(Num::ZERO, |sum, part| sum + part);
    if sum(|part| part.time) > shift {
        return None;
    }
    sum(|part| part.level * part.time).checked_div(shift)
}

fn average_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let (levels, times) = (given.many("level")?, given.many("time")?);
    if levels.len() != times.len() {
        return Err(Refusal::of("time", "must be given once for each level"));
    }
    let parts: Vec<Part> =
        levels.iter().zip(times).map(|(level, time)| Part { level: *level, time: *time }).collect();
    time_weighted_average(given.number("shift")?, &parts)
        .map(Answer::Number)
        .ok_or_else(|| Refusal::of("time", "the parts together must not be longer than the shift"))
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
