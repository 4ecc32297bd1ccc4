//! How high the centre of gravity lies, from what the front gains when the rear is raised.

use super::shared::{load, vehicle, weighed};
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const WEIGHT: Parameter = load("weight", "what the vehicle weighs").above("0");
const SPAN: Parameter = Parameter::amount("span", "mm", "from axle to axle").at_least("100").at_most("30000");
const RADIUS: Parameter =
    Parameter::amount("radius", "mm", "from the ground to the middle of the wheels, under load")
        .at_least("0")
        .at_most("5000");
const RAISED: Parameter = Parameter::amount("raised", "mm", "how much higher one axle is than the other")
    .above("0")
    .at_most("30000");
const TILTED: &str =
    "balance of moments on the tilted vehicle: h = r + span·gain/(W·tan t), sin t = raised/span";
const ASSUMES: &[&str] = &["all wheels have one radius, and springs and fluids do not shift"];

pub(super) const CENTRE_HEIGHT: Function = Function {
    name: "centre_height",
    summary: "how high the centre of gravity lies above the ground",
    parameters: &[
        WEIGHT,
        load("gain", "what the lower axle weighs more once the other is raised").at_least("0"),
        SPAN,
        RADIUS,
        RAISED,
    ],
    result: Shape::Amount("mm"),
    call: height_row,
    assumes: ASSUMES,
    source: TILTED,
    example: "centre_height(3000 lb, gain = 31 lb, span = 110 in, radius = 13 in, raised = 14 in)",
};

pub(super) const GAIN: Function = Function {
    name: "load_gain_when_raised",
    summary: "what the lower axle carries more when the other end of the vehicle is raised",
    parameters: &[
        WEIGHT,
        Parameter::amount("height", "mm", "from the ground to the centre of gravity")
            .at_least("0")
            .at_most("10000"),
        SPAN,
        RADIUS,
        RAISED,
    ],
    result: Shape::Same,
    call: gain_row,
    assumes: ASSUMES,
    source: TILTED,
    example: "load_gain_when_raised(3000 lb, height = 22 in, span = 110 in, radius = 13 in, raised = 14 in)",
};

/// How a vehicle was tilted; all lengths in one unit.
#[derive(Clone, Copy, Debug)]
pub struct Tilt {
    /// From axle to axle.
    pub span: Num,
    /// How much higher one axle is than the other: less than `span`.
    pub raised: Num,
    /// From the ground to the middle of the wheels.
    pub radius: Num,
}

/// The height of the centre of gravity, from what the lower axle gains; `gain` and `weight` in one unit, the result
/// in the unit of the tilt. `None` when the tilt or the weight is not above zero, or the tilt is as long as the span.
pub fn centre_height(weight: Num, gain: Num, tilt: Tilt) -> Option<Num> {
    let above_wheels = (tilt.span * gain).checked_div(weight * tilt.tangent()?)?;
    Some(tilt.radius + above_wheels)
}

/// What the lower axle gains when the other is raised, in the unit of `weight`: the other way round of
/// [`centre_height`]. Below zero when the centre of gravity lies lower than the middle of the wheels.
pub fn load_gain_when_raised(weight: Num, height: Num, tilt: Tilt) -> Option<Num> {
    ((height - tilt.radius) * weight * tilt.tangent()?).checked_div(tilt.span)
}

impl Tilt {
    fn tangent(self) -> Option<Num> {
        if self.raised <= Num::ZERO || self.raised >= self.span {
            return None;
        }
        let flat = (self.span * self.span - self.raised * self.raised).sqrt()?;
        self.raised.checked_div(flat)
    }

    fn of(given: &Given<'_>) -> Result<Self, Refusal> {
        Ok(Self {
            span: given.number("span")?,
            raised: given.number("raised")?,
            radius: given.number("radius")?,
        })
    }
}

fn height_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    centre_height(vehicle(given)?, weighed(given, "gain")?, Tilt::of(given)?)
        .map(Answer::Number)
        .ok_or_else(too_steep)
}

fn gain_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    load_gain_when_raised(vehicle(given)?, given.number("height")?, Tilt::of(given)?)
        .map(Answer::Number)
        .ok_or_else(too_steep)
}

fn too_steep() -> Refusal {
    Refusal::of("raised", "must be less than the distance from axle to axle")
}
