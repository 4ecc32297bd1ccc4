//! What heat does to a level.

use super::expansion::{Base, lubricating_oil_expansion, volume_factor};
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const SOURCE: &str =
    "API MPMS 11.1 / ASTM D1250, table 54D: the factor at one temperature over that at the other";

const DENSITY: Parameter =
    Parameter::amount("density", "kg/m³", "the density at 15 °C, from the fluid's data sheet")
        .at_least("800.9")
        .at_most("1163.5");

pub(super) const OIL_VOLUME_AT: Function = Function {
    name: "oil_volume_at",
    summary: "what a volume of oil becomes at another temperature",
    parameters: &[
        Parameter::amount("volume", "L", "the volume at the first temperature").at_least("0"),
        temperature("from", "the temperature at which the volume was measured"),
        temperature("to", "the temperature at which it is asked for"),
        DENSITY,
    ],
    result: Shape::Amount("L"),
    call: |given| {
        let change = change(given, "from", "to")?;
        Answer::float(oil_volume_at(given.float("volume")?, change))
    },
    assumes: &["the fluid behaves as a lubricating oil of its density"],
    source: SOURCE,
    example: "oil_volume_at(9 L, from = 25 °C, to = 80 °C, density = 850 kg/m³)",
};

pub(super) const LEVEL_RISE: Function = Function {
    name: "level_rise",
    summary: "by what volume a fill reads higher when it is hot than it did cold",
    parameters: &[
        Parameter::amount("fill", "L", "all the fluid that is in, at the cold temperature").at_least("0"),
        temperature("cold", "the temperature when the cold level was read"),
        temperature("hot", "the temperature at which the level is checked"),
        DENSITY,
    ],
    result: Shape::Amount("L"),
    call: |given| {
        let change = change(given, "cold", "hot")?;
        Answer::float(level_rise(given.float("fill")?, change))
    },
    assumes: &[
        "the whole fill takes the hot temperature and the case does not grow",
        "as much fluid stands in the sump hot as cold, apart from its growth",
    ],
    source: SOURCE,
    example: "level_rise(9 L, cold = 25 °C, hot = 80 °C, density = 850 kg/m³)",
};

/// A change of temperature of an oil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Warming {
    /// At the start, in °C.
    pub from: f64,
    /// At the end, in °C.
    pub to: f64,
    /// The density at 15 °C, in kg/m³.
    pub density: f64,
}

/// What `volume` becomes by the change, in its own unit.
///
/// ```
/// use bayhand::trade::fluid::{Warming, oil_volume_at};
///
/// let change = Warming { from: 20.0, to: 80.0, density: 850.0 };
/// assert!((oil_volume_at(1.0, change) - 1.047_230).abs() < 1e-6);
/// ```
pub fn oil_volume_at(volume: f64, change: Warming) -> f64 {
    let base = Base::Celsius15;
    let expansion = lubricating_oil_expansion(change.density, base);
    let factor = |celsius: f64| volume_factor(expansion, celsius - base.celsius());
    volume * (factor(change.from) / factor(change.to))
}

/// By how much `fill` grows, in its own unit; below zero when it cools.
///
/// ```
/// use bayhand::trade::fluid::{Warming, level_rise};
///
/// let change = Warming { from: 25.0, to: 80.0, density: 850.0 };
/// assert!((level_rise(9.0, change) - 0.390).abs() < 5e-4);
/// ```
pub fn level_rise(fill: f64, change: Warming) -> f64 {
    oil_volume_at(fill, change) - fill
}

const fn temperature(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::temperature(name, "°C", meaning).at_least("-50").at_most("150")
}

fn change(given: &Given<'_>, from: &str, to: &str) -> Result<Warming, Refusal> {
    Ok(Warming { from: given.float(from)?, to: given.float(to)?, density: given.float("density")? })
}
