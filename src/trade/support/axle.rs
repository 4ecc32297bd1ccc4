//! How a weight is shared between the front and the rear supports.

use super::shared::{CENTRE, LEVEL, NO_VERDICT, SPAN, WEIGHT, load, tips, vehicle, weighed};
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Refusal, Shape};

const MOMENTS: &str = "balance of moments: front = W·(span - centre)/span, rear = W·centre/span";

pub(super) const FRONT: Function = Function {
    name: "front_load",
    summary: "the load on both front supports together",
    parameters: &[WEIGHT, CENTRE, SPAN],
    result: Shape::Same,
    call: |given| shared(given, front_load),
    assumes: &[LEVEL, NO_VERDICT],
    source: MOMENTS,
    example: "front_load(1500 kg, centre = 1.2 m, span = 2.7 m)",
};

pub(super) const REAR: Function = Function {
    name: "rear_load",
    summary: "the load on both rear supports together",
    parameters: &[WEIGHT, CENTRE, SPAN],
    result: Shape::Same,
    call: |given| shared(given, rear_load),
    assumes: &[LEVEL, NO_VERDICT],
    source: MOMENTS,
    example: "rear_load(1500 kg, centre = 1.2 m, span = 2.7 m)",
};

pub(super) const CENTRE_BEHIND: Function = Function {
    name: "centre_behind_front",
    summary: "how far the centre of gravity lies behind the front supports, from the loads front and rear",
    parameters: &[
        load("front", "the load on both front supports").at_least("0"),
        load("rear", "the load on both rear supports").at_least("0"),
        SPAN,
    ],
    result: Shape::Amount("mm"),
    call: centre_row,
    assumes: &[LEVEL],
    source: "balance of moments: centre = span·rear/(front + rear)",
    example: "centre_behind_front(front = 840 kg, rear = 660 kg, span = 2.7 m)",
};

/// The load on both front supports, in the unit of `weight`; `centre` is how far the centre of gravity lies behind
/// them, `span` how far the rear supports do. `None` when the centre is not between the supports.
///
/// ```
/// use bayhand::trade::support::front_load;
///
/// assert_eq!(front_load(3000.into(), 40.into(), 100.into()), Some(1800.into()));
/// ```
pub fn front_load(weight: Num, centre: Num, span: Num) -> Option<Num> {
    Some(weight - rear_load(weight, centre, span)?)
}

/// The load on both rear supports; see [`front_load`].
pub fn rear_load(weight: Num, centre: Num, span: Num) -> Option<Num> {
    if centre < Num::ZERO || centre > span {
        return None;
    }
    (weight * centre).checked_div(span)
}

/// How far the centre of gravity lies behind the front supports, in the unit of `span`; `None` without any load.
pub fn centre_behind_front(front: Num, rear: Num, span: Num) -> Option<Num> {
    (span * rear).checked_div(front + rear)
}

type Share = fn(Num, Num, Num) -> Option<Num>;

fn shared(given: &Given<'_>, share: Share) -> Result<Answer, Refusal> {
    share(vehicle(given)?, given.number("centre")?, given.number("span")?)
        .map(Answer::Number)
        .ok_or_else(|| tips("centre"))
}

fn centre_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    centre_behind_front(weighed(given, "front")?, weighed(given, "rear")?, given.number("span")?)
        .map(Answer::Number)
        .ok_or_else(|| Refusal::of_all("without any load there is no centre of gravity"))
}
