//! What stays in a converter that lies with its axis level, when it drains through an opening at some height.

use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

pub(super) const LEFT_IN_CONVERTER: Function = Function {
    name: "left_in_converter",
    summary: "what stays in a converter on its level axis, below the opening through which it drains",
    parameters: &[
        Parameter::amount("diameter", "mm", "its inside diameter").above("0").at_most("2000"),
        Parameter::amount("width", "mm", "its inside width along the axis").above("0").at_most("2000"),
        Parameter::amount("level", "mm", "from its lowest point up to where the fluid stands").at_least("0"),
    ],
    result: Shape::Amount("L"),
    call: row,
    assumes: &[
        "it is taken for a plain cylinder; the wheels inside take up room, so less stays than this",
        "what came out is measured; the vehicle's own check sets the level",
    ],
    source: "segment of a circle times width: (r²·acos((r - h)/r) - (r - h)·sqrt(2·r·h - h²))·width",
    example: "left_in_converter(280 mm, width = 120 mm, level = 100 mm)",
};

/// The volume below `level` in a cylinder that lies on its side; all lengths in one unit. `None` unless the level lies
/// between its lowest point and its highest.
///
/// ```
/// use bayhand::trade::converter::left_in_cylinder;
///
/// let half = left_in_cylinder(2.0, 3.0, 1.0).unwrap();
/// assert!((half - 1.5 * std::f64::consts::PI).abs() < 1e-12);
/// ```
pub fn left_in_cylinder(diameter: f64, width: f64, level: f64) -> Option<f64> {
    let radius = diameter / 2.0;
    let sound = radius > 0.0 && (0.0..=diameter).contains(&level);
    let above = radius - level;
    let half_chord = libm::sqrt((level * (diameter - level)).max(0.0));
    sound.then(|| {
        let cosine = (above / radius).clamp(-1.0, 1.0);
        (radius * radius * libm::acos(cosine) - above * half_chord) * width
    })
}

fn row(given: &Given<'_>) -> Result<Answer, Refusal> {
    left_in_cylinder(given.float("diameter")?, given.float("width")?, given.float("level")?)
        .ok_or_else(|| Refusal::of("level", "must be at most the diameter"))
        .and_then(|cubic_millimetres| Answer::float(cubic_millimetres / 1e6))
}
