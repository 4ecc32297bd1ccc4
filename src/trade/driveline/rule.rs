//! The rule of thumb for how steep a joint may work at a speed.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

/// Speed in rpm, and the largest working angle in tenths of a degree; the fastest first.
const LARGEST: &[(i64, i64)] = &[(5000, 32), (4500, 37), (4000, 42), (3500, 50)];

pub(super) const LIMIT: Function = Function {
    name: "joint_angle_limit",
    summary: "the largest angle at which a universal joint is commonly let work at a shaft speed",
    parameters: &[Parameter::amount("speed", "rpm", "the highest speed of the driveshaft").at_least("0")],
    result: Shape::Amount("°"),
    call: |given| {
        joint_angle_limit(given.number("speed")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("speed", "must be at most 5000 rpm; no angle is published above it"))
    },
    assumes: &[
        "between two speeds of the table the stricter one holds, and below 3500 rpm the one at 3500 rpm",
        "the vehicle's service information decides",
    ],
    source: "basic rules for driveshafts, service literature, as commonly published",
    example: "joint_angle_limit(4200 rpm)",
};

/// The largest working angle in degrees that is commonly let be at a shaft speed in rpm; `None` above 5000 rpm.
pub fn joint_angle_limit(speed: Num) -> Option<Num> {
    let (_, tenths) = LARGEST.iter().rev().find(|(fastest, _)| speed <= (*fastest).into())?;
    Num::ratio(i128::from(*tenths), 10)
}
