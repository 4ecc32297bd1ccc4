//! Two joints on one shaft: what unevenness is left.

use crate::trade::angle;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// How the two yokes on one shaft stand to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Yokes {
    /// In one plane: the joints work against each other.
    InLine,
    /// A quarter turn apart: the joints add up.
    Crossed,
}

const fn working(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::amount(name, "°", meaning).at_least("0").below("90")
}

pub(super) const LEFTOVER: Function = Function {
    name: "leftover_angle",
    summary: "the angle of one joint that would be as uneven as the two joints of a shaft together",
    parameters: &[
        working("first", "the working angle at one end"),
        working("second", "the working angle at the other end").either_way(),
        Parameter::choice("yokes", &["in line", "crossed"], "how the yokes on the shaft stand").or("in line"),
    ],
    result: Shape::Amount("°"),
    call: row,
    assumes: &["all shafts lie in one plane"],
    source: "kinematics of two cross-and-yoke joints; for small angles sqrt(first² - second²), crossed sqrt(first² + second²)",
    example: "leftover_angle(5°, 3°)",
};

/// The angle in degrees at which one joint is as uneven as two joints at `first` and `second` degrees together.
/// Equal angles with the yokes in line leave nothing.
///
/// ```
/// use bayhand::trade::driveline::{Yokes, leftover_angle};
///
/// assert_eq!(leftover_angle(2.0, 2.0, Yokes::InLine), 0.0);
/// ```
pub fn leftover_angle(first: f64, second: f64, yokes: Yokes) -> f64 {
    let (first, second) = (angle::cos(first), angle::cos(second));
    angle::arc_cos(match yokes {
        Yokes::InLine => first.min(second) / first.max(second),
        Yokes::Crossed => first * second,
    })
}

fn row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let yokes = match given.text("yokes")? {
        "crossed" => Yokes::Crossed,
        _ => Yokes::InLine,
    };
    Answer::float(leftover_angle(given.float("first")?, given.float("second")?, yokes))
}
