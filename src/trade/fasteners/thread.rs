//! The area of a thread that carries the pull.

use std::f64::consts::FRAC_PI_4;

use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

pub(super) const STRESS_AREA: Function = Function {
    name: "stress_area",
    summary: "the tensile stress area of a metric thread",
    parameters: &[
        Parameter::amount("diameter", "mm", "the nominal diameter").above("0").at_most("300"),
        Parameter::amount("pitch", "mm", "from one thread to the next").above("0").at_most("50"),
    ],
    result: Shape::Amount("mm²"),
    call: metric_row,
    assumes: &["the thread has the ISO metric profile"],
    source: "ISO 898-1: As = π/4·((d2 + d3)/2)², which is π/4·(d - 0.938194·P)²",
    example: "stress_area(10 mm, pitch = 1.5 mm)",
};

pub(super) const STRESS_AREA_INCH: Function = Function {
    name: "stress_area_inch",
    summary: "the tensile stress area of a unified inch thread",
    parameters: &[
        Parameter::amount("diameter", "in", "the nominal diameter").above("0").at_most("12"),
        Parameter::number("threads", "threads in one inch").above("0").at_most("200"),
    ],
    result: Shape::Amount("in²"),
    call: inch_row,
    assumes: &["the thread has the unified inch profile"],
    source: "ASME B1.1: As = π/4·(D - 0.9743/n)²",
    example: "stress_area_inch(3/8 in, threads = 16)",
};

/// The tensile stress area in square millimetres of an ISO metric thread, from its nominal diameter and its pitch in
/// millimetres. `None` when the pitch is half of the diameter or more: no such thread is made.
pub fn stress_area(diameter: f64, pitch: f64) -> Option<f64> {
    area(diameter, pitch, 0.938_194)
}

/// The tensile stress area in square inches of a unified thread, from its nominal diameter in inches and the number
/// of threads in an inch. `None` when the threads are too coarse for the diameter.
pub fn stress_area_inch(diameter: f64, threads: f64) -> Option<f64> {
    area(diameter, 1.0 / threads, 0.9743)
}

fn area(diameter: f64, pitch: f64, share: f64) -> Option<f64> {
    let sound = pitch > 0.0 && pitch.is_finite() && pitch < diameter / 2.0;
    let mean = diameter - share * pitch;
    sound.then_some(FRAC_PI_4 * mean * mean)
}

fn metric_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let area = stress_area(given.float("diameter")?, given.float("pitch")?)
        .ok_or_else(|| Refusal::of("pitch", "must be less than half of the diameter"))?;
    Answer::float(area)
}

fn inch_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let area = stress_area_inch(given.float("diameter")?, given.float("threads")?).ok_or_else(|| {
        Refusal::of("threads", "one inch divided by the threads must be less than half of the diameter")
    })?;
    Answer::float(area)
}
