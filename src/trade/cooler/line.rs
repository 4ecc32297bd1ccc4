//! Flow in a round line: the Reynolds number, and the pressure it takes while the flow is laminar.

use std::f64::consts::PI;

use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// Below this Reynolds number the flow in a round line is laminar for certain.
pub const LAMINAR_BELOW: f64 = 2000.0;

const FLOW: Parameter = Parameter::amount("flow", "m³/s", "the flow in the line").at_least("0");
const BORE: Parameter =
    Parameter::amount("bore", "m", "the inside diameter of the line").above("0").at_most("1");
const LENGTH: Parameter =
    Parameter::amount("length", "m", "the length of the line").above("0").at_most("1000");
const VISCOSITY: Parameter =
    Parameter::amount("viscosity", "m²/s", "the kinematic viscosity of the fluid at its temperature")
        .above("0");
const DENSITY: Parameter =
    Parameter::amount("density", "kg/m³", "the density of the fluid at its temperature").above("0");

const STRAIGHT: &str = "a straight, round, smooth line without fittings, and a fluid of one temperature";

pub(super) const REYNOLDS_NUMBER: Function = Function {
    name: "reynolds_number",
    summary: "the Reynolds number of the flow in a line; below 2000 it is laminar",
    parameters: &[FLOW, BORE, VISCOSITY],
    result: Shape::Number,
    call: |given| {
        let number = reynolds_number(given.float("flow")?, given.float("bore")?, given.float("viscosity")?);
        Answer::float(number)
    },
    assumes: &["a round line that is full"],
    source: "velocity times bore over kinematic viscosity",
    example: "reynolds_number(4 L/min, bore = 8 mm, viscosity = 10 mm²/s)",
};

pub(super) const LAMINAR_PRESSURE_DROP: Function = Function {
    name: "laminar_pressure_drop",
    summary: "the pressure that a slow flow loses in a line",
    parameters: &[FLOW, BORE, LENGTH, VISCOSITY, DENSITY],
    result: Shape::Amount("kPa"),
    call: laminar_pressure_drop_row,
    assumes: &[STRAIGHT],
    source: "law of Hagen and Poiseuille: 128·viscosity·length·flow / (pi·bore^4), below a Reynolds number of 2000",
    example: "laminar_pressure_drop(4 L/min, bore = 8 mm, length = 3 m, viscosity = 10 mm²/s, density = 820 kg/m³)",
};

pub(super) const LAMINAR_FLOW: Function = Function {
    name: "laminar_flow",
    summary: "the flow that a difference of pressure drives through a line while it is slow",
    parameters: &[
        Parameter::amount("pressure", "Pa", "the difference of pressure between the ends").at_least("0"),
        BORE,
        LENGTH,
        VISCOSITY,
        DENSITY,
    ],
    result: Shape::Amount("m³/s"),
    call: laminar_flow_row,
    assumes: &[STRAIGHT],
    source: "law of Hagen and Poiseuille: pi·bore^4·pressure / (128·viscosity·length), below a Reynolds number of 2000",
    example: "laminar_flow(10 kPa, bore = 8 mm, length = 3 m, viscosity = 40 mm²/s, density = 850 kg/m³)",
};

/// A round line, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Its inside diameter.
    pub bore: f64,
    /// Its length.
    pub length: f64,
}

/// What flows in it, at its temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Oil {
    /// The kinematic viscosity in m²/s.
    pub viscosity: f64,
    /// The density in kg/m³.
    pub density: f64,
}

/// The Reynolds number of `flow` m³/s in a round line of `bore` metres at a kinematic `viscosity` in m²/s.
///
/// ```
/// use bayhand::trade::cooler::reynolds_number;
///
/// assert!((reynolds_number(0.0035, 0.05, 0.1 / 900.0) - 802.141).abs() < 1e-3);
/// ```
pub fn reynolds_number(flow: f64, bore: f64, viscosity: f64) -> f64 {
    let velocity = flow / (PI / 4.0 * bore * bore);
    velocity * bore / viscosity
}

/// The pressure in Pa that `flow` m³/s loses in a line; `None` from a Reynolds number of 2000 on, where the flow need
/// not be laminar.
///
/// ```
/// use bayhand::trade::cooler::{Line, Oil, laminar_pressure_drop};
///
/// let line = Line { bore: 0.05, length: 300.0 };
/// let oil = Oil { viscosity: 0.1 / 900.0, density: 900.0 };
/// assert!((laminar_pressure_drop(0.0035, line, oil).unwrap() - 684_493.58).abs() < 0.01);
/// ```
pub fn laminar_pressure_drop(flow: f64, line: Line, oil: Oil) -> Option<f64> {
    let laminar = reynolds_number(flow, line.bore, oil.viscosity) < LAMINAR_BELOW;
    laminar.then(|| flow * resistance(line, oil))
}

/// The flow in m³/s that `pressure` Pa drives through a line; `None` where it need not be laminar.
///
/// ```
/// use bayhand::trade::cooler::{Line, Oil, laminar_flow};
///
/// let line = Line { bore: 0.05, length: 40.0 };
/// let oil = Oil { viscosity: 0.8 / 1252.0, density: 1252.0 };
/// assert!((laminar_flow(648_000.0, line, oil).unwrap() - 0.003_106).abs() < 1e-6);
/// ```
pub fn laminar_flow(pressure: f64, line: Line, oil: Oil) -> Option<f64> {
    let flow = pressure / resistance(line, oil);
    let laminar = reynolds_number(flow, line.bore, oil.viscosity) < LAMINAR_BELOW;
    laminar.then_some(flow)
}

/// Pressure for each unit of flow.
fn resistance(line: Line, oil: Oil) -> f64 {
    let area = line.bore * line.bore;
    128.0 * oil.viscosity * oil.density * line.length / (PI * area * area)
}

fn line_and_oil(given: &Given<'_>) -> Result<(Line, Oil), Refusal> {
    let line = Line { bore: given.float("bore")?, length: given.float("length")? };
    let oil = Oil { viscosity: given.float("viscosity")?, density: given.float("density")? };
    Ok((line, oil))
}

fn not_laminar(parameter: &str) -> Refusal {
    Refusal::of(parameter, "the Reynolds number must stay below 2000; above it the flow need not be laminar")
}

fn laminar_pressure_drop_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let (line, oil) = line_and_oil(given)?;
    let drop = laminar_pressure_drop(given.float("flow")?, line, oil).ok_or_else(|| not_laminar("flow"))?;
    Answer::float(drop / 1000.0)
}

fn laminar_flow_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let (line, oil) = line_and_oil(given)?;
    let flow = laminar_flow(given.float("pressure")?, line, oil).ok_or_else(|| not_laminar("pressure"))?;
    Answer::float(flow)
}
