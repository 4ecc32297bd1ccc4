//! How oil grows with heat: API MPMS chapter 11.1 (1980 and 2004), also published as ASTM D1250, for lubricating oils
//! (tables 54D and 6D).

use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const STANDARD: &str = "API MPMS 11.1 / ASTM D1250, lubricating oils (tables 53D, 54D; 6D for 60 °F)";

/// What the expansion constant of lubricating oils is, at 15 °C and a degree Celsius.
const K1_CELSIUS: f64 = 0.6278;
/// The same constant at 60 °F and a degree Fahrenheit: a degree is smaller, so the constant is too. To use it with
/// degrees Celsius is wrong by a factor of 1.8.
const K1_FAHRENHEIT: f64 = 0.348_78;
/// Fahrenheit degrees in one kelvin.
const DEGREES_F: f64 = 1.8;

/// Below 0.01 kg/m³ after a few rounds; the loop ends long before this.
const MOST_ROUNDS: usize = 100;

/// The temperature at which a density is stated, with the constant that belongs to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Base {
    /// 15 °C.
    Celsius15,
    /// 60 °F.
    Fahrenheit60,
}

impl Base {
    const NAMES: &'static [&'static str] = &["15 °C", "60 °F"];

    fn named(name: &str) -> Self {
        if name == "60 °F" { Self::Fahrenheit60 } else { Self::Celsius15 }
    }

    /// In degrees Celsius.
    pub fn celsius(self) -> f64 {
        match self {
            Self::Celsius15 => 15.0,
            Self::Fahrenheit60 => 28.0 / DEGREES_F,
        }
    }
}

/// The density of a lubricating oil for which the tables are made, in kg/m³.
const DENSITY: Parameter =
    Parameter::amount("density", "kg/m³", "the density at the base temperature, from the oil's data sheet")
        .at_least("800.9")
        .at_most("1163.5");
const TEMPERATURE: Parameter =
    Parameter::temperature("temperature", "°C", "the temperature of the oil").at_least("-50").at_most("150");
const BASE: Parameter =
    Parameter::choice("base", Base::NAMES, "the temperature at which the density is stated").or("15 °C");

pub(super) const VOLUME_FACTOR: Function = Function {
    name: "volume_factor",
    summary: "what to multiply a volume at a temperature with to get the volume at the base temperature",
    parameters: &[
        Parameter::amount("expansion", "%/K", "the coefficient of expansion at the base temperature")
            .at_least("0.04")
            .at_most("0.17"),
        TEMPERATURE,
        Parameter::temperature("base", "°C", "the base temperature").at_least("0").at_most("40").or("15 °C"),
    ],
    result: Shape::Number,
    call: |given| {
        let above = given.float("temperature")? - given.float("base")?;
        Answer::float(volume_factor(given.float("expansion")? / 100.0, above))
    },
    assumes: &["the oil has no air or water in it"],
    source: "API MPMS 11.1 / ASTM D1250: exp(-a·dT·(1 + 0.8·a·dT)); tables 54C, 6C and 24C are this with a given",
    example: "volume_factor(0.074 %/K, 80 °C)",
};

pub(super) const OIL_VOLUME_FACTOR: Function = Function {
    name: "oil_volume_factor",
    summary: "what to multiply a volume of hot or cold oil with to get its volume at the base temperature",
    parameters: &[DENSITY, TEMPERATURE, BASE],
    result: Shape::Number,
    call: |given| Answer::float(oil_factor(given)?),
    assumes: &["the fluid behaves as a lubricating oil of its density"],
    source: STANDARD,
    example: "oil_volume_factor(850 kg/m³, 80 °C)",
};

pub(super) const OIL_DENSITY_AT: Function = Function {
    name: "oil_density_at",
    summary: "the density of oil at a temperature, from that of its data sheet",
    parameters: &[DENSITY, TEMPERATURE, BASE],
    result: Shape::Amount("kg/m³"),
    call: |given| Answer::float(given.float("density")? * oil_factor(given)?),
    assumes: &["the fluid behaves as a lubricating oil of its density"],
    source: STANDARD,
    example: "oil_density_at(850 kg/m³, 80 °C)",
};

pub(super) const OIL_BASE_DENSITY: Function = Function {
    name: "oil_base_density",
    summary: "the density of oil at the base temperature, from one measured at another temperature",
    parameters: &[
        Parameter::amount("density", "kg/m³", "the density that was measured").above("600").at_most("1300"),
        TEMPERATURE,
        BASE,
    ],
    result: Shape::Amount("kg/m³"),
    call: |given| {
        let base = Base::named(given.text("base")?);
        base_density(given.float("density")?, given.float("temperature")?, base)
            .ok_or_else(|| {
                Refusal::of("density", "at the base temperature it must be from 800.9 to 1163.5 kg/m³")
            })
            .and_then(Answer::float)
    },
    assumes: &["the fluid behaves as a lubricating oil of its density"],
    source: STANDARD,
    example: "oil_base_density(810 kg/m³, 80 °C)",
};

/// What to multiply a volume with to bring it to the base temperature: `expansion` is the coefficient at the base in
/// 1/K, `above` how many kelvins the volume is warmer than the base. A density at the base is multiplied with it to
/// get the density at the temperature.
///
/// ```
/// use bayhand::trade::fluid::volume_factor;
///
/// assert!((volume_factor(0.001644, -33.0) - 1.0533).abs() < 5e-5);
/// ```
pub fn volume_factor(expansion: f64, above: f64) -> f64 {
    let growth = expansion * above;
    libm::exp(-growth * (1.0 + 0.8 * growth))
}

/// The coefficient of expansion of lubricating oil, in 1/K, from its density at the base in kg/m³.
///
/// ```
/// use bayhand::trade::fluid::{Base, lubricating_oil_expansion};
///
/// // The two forms of the constant agree once the degrees do.
/// let celsius = lubricating_oil_expansion(850.0, Base::Celsius15);
/// let fahrenheit = lubricating_oil_expansion(850.0, Base::Fahrenheit60);
/// assert!((celsius / fahrenheit - 1.0).abs() < 1e-5);
/// ```
pub fn lubricating_oil_expansion(density: f64, base: Base) -> f64 {
    let constant = match base {
        Base::Celsius15 => K1_CELSIUS,
        Base::Fahrenheit60 => K1_FAHRENHEIT * DEGREES_F,
    };
    constant / density
}

/// The density at the base, in kg/m³, of oil that has `density` kg/m³ at `temperature` °C. `None` when it is outside
/// of the tables, 800.9 to 1163.5 kg/m³.
///
/// ```
/// use bayhand::trade::fluid::{Base, base_density};
///
/// assert!((base_density(954.0, 150.0, Base::Celsius15).unwrap() - 1040.470).abs() < 1e-3);
/// ```
pub fn base_density(density: f64, temperature: f64, base: Base) -> Option<f64> {
    let above = temperature - base.celsius();
    let mut at_base = density;
    for _ in 0..MOST_ROUNDS {
        let better = density / volume_factor(lubricating_oil_expansion(at_base, base), above);
        let settled = (better - at_base).abs() < 1e-9;
        at_base = better;
        if settled {
            break;
        }
    }
    (800.9..=1163.5).contains(&at_base).then_some(at_base)
}

fn oil_factor(given: &Given<'_>) -> Result<f64, Refusal> {
    let base = Base::named(given.text("base")?);
    let expansion = lubricating_oil_expansion(given.float("density")?, base);
    Ok(volume_factor(expansion, given.float("temperature")? - base.celsius()))
}
