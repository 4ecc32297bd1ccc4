//! What a dipstick tells: how much a millimetre on it is, and how far off it is on a slope.

use crate::quantity::Num;
use crate::trade::angle;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

pub(super) const DIPSTICK_VOLUME: Function = Function {
    name: "dipstick_volume",
    summary: "the volume for each millimetre of dipstick, from what was added between two levels",
    parameters: &[
        Parameter::amount("added", "mL", "what was filled in between the two readings").above("0"),
        Parameter::amount("before", "mm", "the level on the dipstick before")
            .at_least("-1000")
            .at_most("1000"),
        Parameter::amount("after", "mm", "the level on the dipstick after").at_least("-1000").at_most("1000"),
    ],
    result: Shape::Amount("mL/mm"),
    call: volume_row,
    assumes: &[
        "between the two levels the sump is equally wide; both were read the same way, equally warm and settled",
        "the marks of the vehicle's own dipstick and its own check decide the level",
    ],
    source: "volume over rise of the level",
    example: "dipstick_volume(400 mL, before = 12 mm, after = 22 mm)",
};

pub(super) const LEVEL_ERROR_ON_SLOPE: Function = Function {
    name: "level_error_on_slope",
    summary: "by how much a dipstick reads too high when the vehicle stands on a slope; below zero, too low",
    parameters: &[
        Parameter::amount(
            "distance",
            "mm",
            "along the slope from the middle of the fluid's surface down to the dipstick; uphill of it below zero",
        )
        .at_least("-3000")
        .at_most("3000"),
        Parameter::amount("slope", "°", "how steep the vehicle stands").at_least("0").at_most("30"),
    ],
    result: Shape::Amount("mm"),
    call: |given| Answer::float(level_error_on_slope(given.float("distance")?, given.float("slope")?)),
    assumes: &[
        "the surface turns about its middle, and no wall or edge of the sump is reached",
        "the vehicle's own check is made on level ground",
    ],
    source: "geometry: distance·tan(slope)",
    example: "level_error_on_slope(200 mm, slope = 3°)",
};

/// What fills one unit of the dipstick's length, in the unit of `added` for the unit of the levels; exact. `None` unless
/// the level rose.
///
/// ```
/// use bayhand::trade::fluid::dipstick_volume;
///
/// assert_eq!(dipstick_volume(400.into(), 12.into(), 22.into()), Some(40.into()));
/// ```
pub fn dipstick_volume(added: Num, before: Num, after: Num) -> Option<Num> {
    if after <= before {
        return None;
    }
    added.checked_div(after - before)
}

/// By how much the level stands higher `distance` down a slope of so many degrees, in the unit of `distance`.
///
/// ```
/// use bayhand::trade::fluid::level_error_on_slope;
///
/// assert!((level_error_on_slope(200.0, 3.0) - 10.4816).abs() < 1e-4);
/// ```
pub fn level_error_on_slope(distance: f64, slope: f64) -> f64 {
    distance * angle::tan(slope)
}

fn volume_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    dipstick_volume(given.number("added")?, given.number("before")?, given.number("after")?)
        .map(Answer::Number)
        .ok_or_else(|| {
            Refusal::of("after", "must be higher than the level before; were the two turned round?")
        })
}
