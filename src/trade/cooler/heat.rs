//! The heat that the fluid leaves in the cooler.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Shape};

/// Joules for a kilogram and kelvin in one Btu for a pound and degree Fahrenheit: 4186.8 by the International Table.
const BTU_FOR_A_POUND: f64 = 4186.8;

pub(super) const HEAT_CARRIED: Function = Function {
    name: "heat_carried",
    summary: "the heat that a flow of fluid leaves in the cooler",
    parameters: &[
        Parameter::amount("flow", "L/min", "the flow through the cooler").at_least("0"),
        Parameter::amount("drop", "K", "how much cooler it comes out than it goes in"),
        Parameter::amount("density", "kg/m³", "the density of the fluid at its temperature")
            .at_least("600")
            .at_most("1300"),
        Parameter::amount("specific_heat", "J/kg/K", "the specific heat of the fluid at its temperature")
            .at_least("1000")
            .at_most("5000"),
    ],
    result: Shape::Amount("W"),
    call: |given| {
        let carried = HeatFlow {
            flow: given.number("flow")?,
            drop: given.number("drop")?,
            density: given.number("density")?,
            specific_heat: given.number("specific_heat")?,
        };
        Ok(Answer::Number(carried.watts()))
    },
    assumes: &["flow and temperatures are steady"],
    source: "balance of heat: Q = m·c·dT",
    example: "heat_carried(2 L/min, drop = 15 K, density = 818 kg/m³, specific_heat = 2000 J/kg/K)",
};

pub(super) const OIL_SPECIFIC_HEAT: Function = Function {
    name: "oil_specific_heat",
    summary: "the specific heat of petroleum oil at a temperature",
    parameters: &[
        Parameter::temperature("temperature", "°C", "the temperature of the oil")
            .at_least("-18")
            .at_most("204"),
        Parameter::number("gravity", "its specific gravity: its density at 60 °F over that of water")
            .at_least("0.75")
            .at_most("0.96"),
    ],
    result: Shape::Amount("J/kg/K"),
    call: |given| Answer::float(oil_specific_heat(given.float("temperature")?, given.float("gravity")?)),
    assumes: &["the fluid behaves as a petroleum oil of its density"],
    source: "NBS Miscellaneous Publication 97 (1929): (0.388 + 0.00045·t) / sqrt(gravity), t in °F, in Btu/(lb·°F)",
    example: "oil_specific_heat(80 °C, gravity = 0.85)",
};

/// A steady flow that gives off heat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HeatFlow {
    /// In L/min.
    pub flow: Num,
    /// In kelvins; below zero where the fluid takes heat up.
    pub drop: Num,
    /// In kg/m³.
    pub density: Num,
    /// In J/(kg·K).
    pub specific_heat: Num,
}

impl HeatFlow {
    /// The heat it gives off, in watts; exact.
    ///
    /// ```
    /// use bayhand::trade::cooler::HeatFlow;
    ///
    /// let carried = HeatFlow { flow: 3.into(), drop: 10.into(), density: 800.into(), specific_heat: 2000.into() };
    /// assert_eq!(carried.watts(), 800.into());
    /// ```
    pub fn watts(self) -> Num {
        // From L/min to m³/s.
        let each_second = self.flow * Num::ratio(1, 60_000).unwrap_or(Num::ZERO);
        each_second * self.density * self.specific_heat * self.drop
    }
}

/// The specific heat of petroleum oil in J/(kg·K), at `celsius`, of specific gravity `gravity` at 60 °F. Holds from
/// 0 to 400 °F and for 0.75 to 0.96.
///
/// ```
/// use bayhand::trade::cooler::oil_specific_heat;
///
/// assert!((oil_specific_heat(80.0, 0.85) - 2121.66).abs() < 0.01);
/// ```
pub fn oil_specific_heat(celsius: f64, gravity: f64) -> f64 {
    let fahrenheit = celsius * 1.8 + 32.0;
    (0.388 + 0.000_45 * fahrenheit) / libm::sqrt(gravity) * BTU_FOR_A_POUND
}
