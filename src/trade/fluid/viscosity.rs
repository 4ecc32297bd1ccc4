//! How thick oil is at a temperature: ASTM D341.

use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// From degrees Celsius to kelvins.
const ZERO_CELSIUS: f64 = 273.15;

const VISCOSITY: Parameter =
    Parameter::amount("at_40", "mm²/s", "the viscosity at the cooler temperature, 40 °C");

pub(super) const VISCOSITY_AT: Function = Function {
    name: "viscosity_at",
    summary: "the kinematic viscosity of oil at a temperature, from those of its data sheet",
    parameters: &[
        temperature("temperature", "the temperature of the oil"),
        range(VISCOSITY),
        range(Parameter::amount("at_100", "mm²/s", "the viscosity at the hotter temperature, 100 °C")),
        temperature("cooler", "the temperature to which `at_40` belongs, if another").or("40 °C"),
        temperature("hotter", "the temperature to which `at_100` belongs, if another").or("100 °C"),
    ],
    result: Shape::Amount("mm²/s"),
    call: viscosity_at_row,
    assumes: &[
        "the oil neither thickens into wax nor boils at the temperature",
        "the further outside of the two known temperatures, the less sure",
    ],
    source: "ASTM D341: log log Z = A - B·log T through two known points",
    example: "viscosity_at(80 °C, at_40 = 34 mm²/s, at_100 = 7.2 mm²/s)",
};

/// The viscosity of an oil at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KnownViscosity {
    /// In °C.
    pub celsius: f64,
    /// In mm²/s, 0.21 or more.
    pub viscosity: f64,
}

/// The kinematic viscosity, in mm²/s, at `celsius`, of an oil that is known at two temperatures. `None` when the two
/// are at the same temperature, or the result leaves the range of the method, 0.21 mm²/s and more.
///
/// ```
/// use bayhand::trade::fluid::{KnownViscosity, viscosity_at};
///
/// let cooler = KnownViscosity { celsius: 40.0, viscosity: 34.0 };
/// let hotter = KnownViscosity { celsius: 100.0, viscosity: 7.2 };
/// assert!((viscosity_at(80.0, cooler, hotter).unwrap() - 10.878).abs() < 1e-3);
/// ```
pub fn viscosity_at(celsius: f64, cooler: KnownViscosity, hotter: KnownViscosity) -> Option<f64> {
    let height = |known: KnownViscosity| libm::log10(libm::log10(z_of_viscosity(known.viscosity)));
    let across = |celsius: f64| libm::log10(celsius + ZERO_CELSIUS);
    let slope = (height(cooler) - height(hotter)) / (across(cooler.celsius) - across(hotter.celsius));
    let at = height(cooler) + slope * (across(celsius) - across(cooler.celsius));
    let viscosity = viscosity_of_z(libm::pow(10.0, libm::pow(10.0, at)));
    (viscosity.is_finite() && viscosity >= 0.21).then_some(viscosity)
}

/// The quantity Z of D341, of a viscosity in mm²/s: v + 0.7, and a little more below 2 mm²/s.
pub fn z_of_viscosity(viscosity: f64) -> f64 {
    let v = viscosity;
    v + 0.7 + libm::exp(-1.47 - 1.84 * v - 0.51 * v * v)
}

/// The viscosity in mm²/s that belongs to a Z of D341.
pub fn viscosity_of_z(z: f64) -> f64 {
    let v = z - 0.7;
    v - libm::exp(-0.7487 - 3.295 * v + 0.6119 * v * v - 0.3193 * v * v * v)
}

const fn range(parameter: Parameter) -> Parameter {
    parameter.at_least("0.21").at_most("20000000")
}

const fn temperature(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::temperature(name, "°C", meaning).at_least("-60").at_most("200")
}

fn viscosity_at_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let known = |viscosity, celsius| {
        Ok(KnownViscosity { celsius: given.float(celsius)?, viscosity: given.float(viscosity)? })
    };
    let (cooler, hotter) = (known("at_40", "cooler")?, known("at_100", "hotter")?);
    if cooler.celsius >= hotter.celsius {
        return Err(Refusal::of("hotter", "must be hotter than `cooler`"));
    }
    if cooler.viscosity <= hotter.viscosity {
        return Err(Refusal::of("at_100", "oil is thinner when it is hotter; were the two turned round?"));
    }
    let viscosity = viscosity_at(given.float("temperature")?, cooler, hotter).ok_or_else(|| {
        Refusal::of(
            "temperature",
            "the result lies outside of 0.21 to 20 000 000 mm²/s, where the method holds",
        )
    })?;
    Answer::float(viscosity)
}
