//! What a stall test does to the fluid: all the engine's power becomes heat.

use std::f64::consts::PI;

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const SHORT: &str =
    "the vehicle's service information decides whether a stall test is allowed, and for how many seconds";

pub(super) const STALL_HEAT: Function = Function {
    name: "stall_heat",
    summary: "the power that goes into the fluid as heat while the converter is held at stall",
    parameters: &[
        Parameter::amount("torque", "N·m", "the torque that the converter takes there").at_least("0"),
        Parameter::amount("speed", "rpm", "the stall speed").at_least("0"),
    ],
    result: Shape::Amount("W"),
    call: |given| Answer::float(stall_heat(given.float("torque")?, given.float("speed")?)),
    assumes: &["the turbine stands, so that none of the power leaves the converter as work", SHORT],
    source: "power of a shaft: torque·2π·speed",
    example: "stall_heat(250 N·m, speed = 2200 rpm)",
};

pub(super) const STALL_TEMPERATURE_RISE: Function = Function {
    name: "stall_temperature_rise",
    summary: "by how much a stall test warms the fluid in the converter",
    parameters: &[
        Parameter::amount("power", "W", "what goes in as heat, as stall_heat gives it").at_least("0"),
        Parameter::amount("time", "s", "how long the stall is held").at_least("0"),
        Parameter::amount("fluid", "L", "the fluid that takes up the heat: what is in the converter")
            .above("0"),
        Parameter::amount("density", "kg/m³", "the density of the fluid at its temperature")
            .at_least("600")
            .at_most("1300"),
        Parameter::amount("specific_heat", "J/kg/K", "the specific heat of the fluid at its temperature")
            .at_least("1000")
            .at_most("5000"),
    ],
    result: Shape::Amount("K"),
    call: rise_row,
    assumes: &["no heat goes into metal or cooler, which makes the rise larger than it is", SHORT],
    source: "balance of heat: dT = P·t/(m·c)",
    example: "stall_temperature_rise(57 kW, time = 5 s, fluid = 4 L, density = 820 kg/m³, specific_heat = 2100 J/kg/K)",
};

/// A warming of fluid by a power.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Warming {
    /// In watts.
    pub power: Num,
    /// In seconds.
    pub time: Num,
    /// How much fluid, in litres.
    pub fluid: Num,
    /// In kg/m³.
    pub density: Num,
    /// In J/(kg·K).
    pub specific_heat: Num,
}

impl Warming {
    /// The rise in kelvins; exact. `None` without fluid.
    ///
    /// ```
    /// use bayhand::trade::converter::Warming;
    ///
    /// let warming = Warming {
    ///     power: 32_000.into(), time: 5.into(), fluid: 4.into(), density: 800.into(), specific_heat: 2000.into(),
    /// };
    /// assert_eq!(warming.rise(), Some(25.into()));
    /// ```
    pub fn rise(self) -> Option<Num> {
        // A litre is a thousandth of a cubic metre.
        (self.power * self.time * 1000.into()).checked_div(self.fluid * self.density * self.specific_heat)
    }
}

/// The power in watts of a torque in newton metres at a speed in rpm.
///
/// ```
/// use bayhand::trade::converter::stall_heat;
///
/// assert!((stall_heat(100.0, 3000.0) - 31_415.927).abs() < 1e-3);
/// ```
pub fn stall_heat(torque: f64, speed: f64) -> f64 {
    torque * speed * (2.0 * PI / 60.0)
}

fn rise_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let warming = Warming {
        power: given.number("power")?,
        time: given.number("time")?,
        fluid: given.number("fluid")?,
        density: given.number("density")?,
        specific_heat: given.number("specific_heat")?,
    };
    warming.rise().map(Answer::Number).ok_or_else(|| Refusal::of("fluid", "must be more than 0 L"))
}
