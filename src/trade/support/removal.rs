//! What changes when a heavy unit comes out.

use super::shared::{
    CENTRE, LEVEL, NO_VERDICT, SPAN, WEIGHT, along, load, tips, vehicle as vehicle_weight, weighed,
};
use super::{front_load, rear_load};
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

const REMOVED: Parameter =
    load("removed", "what the unit that comes out weighs, with what comes out with it").at_least("0");
const POSITION: Parameter = along(
    "position",
    "from the front supports back to the middle of that unit; in front of them it is negative",
);
const MOMENTS: &str = "balance of moments: (W·centre - w·position)/(W - w)";
const BETWEEN: &str =
    "compare it with the rear supports, which this does not know: beyond them the vehicle tips";
const LATER: &str = "for several units, work out their common centre first with common_centre";

pub(super) const CENTRE_AFTER: Function = Function {
    name: "centre_after_removal",
    summary: "how far the centre of gravity lies behind the front supports once a unit is out",
    parameters: &[WEIGHT, CENTRE, REMOVED, POSITION],
    result: Shape::Amount("mm"),
    call: centre_row,
    assumes: &[BETWEEN, LATER],
    source: MOMENTS,
    example: "centre_after_removal(1500 kg, centre = 1.2 m, removed = 90 kg, position = 1 m)",
};

pub(super) const FRONT_AFTER: Function = Function {
    name: "front_load_after",
    summary: "the load on both front supports together once a unit is out",
    parameters: &[WEIGHT, CENTRE, SPAN, REMOVED, POSITION],
    result: Shape::Same,
    call: |given| after_row(given, front_load_after),
    assumes: &[LEVEL, LATER, NO_VERDICT],
    source: MOMENTS,
    example: "front_load_after(1500 kg, centre = 1.2 m, span = 2.7 m, removed = 90 kg, position = 1 m)",
};

pub(super) const REAR_AFTER: Function = Function {
    name: "rear_load_after",
    summary: "the load on both rear supports together once a unit is out",
    parameters: &[WEIGHT, CENTRE, SPAN, REMOVED, POSITION],
    result: Shape::Same,
    call: |given| after_row(given, rear_load_after),
    assumes: &[LEVEL, LATER, NO_VERDICT],
    source: MOMENTS,
    example: "rear_load_after(1500 kg, centre = 1.2 m, span = 2.7 m, removed = 90 kg, position = 1 m)",
};

pub(super) const COMMON_CENTRE: Function = Function {
    name: "common_centre",
    summary: "the common centre of gravity of two units, measured back from the front supports",
    parameters: &[
        load("first", "what one weighs").at_least("0"),
        along("first_position", "from the front supports back to it"),
        load("second", "what the other weighs").at_least("0"),
        along("second_position", "from the front supports back to it"),
    ],
    result: Shape::Amount("mm"),
    call: common_row,
    assumes: &[],
    source: "balance of moments: (w1·x1 + w2·x2)/(w1 + w2)",
    example: "common_centre(80 kg, first_position = 1 m, second = 40 kg, second_position = 1.6 m)",
};

/// A vehicle on its supports: what it weighs, how far its centre of gravity lies behind the front supports, and how
/// far the rear supports do.
#[derive(Clone, Copy, Debug)]
pub struct Standing {
    /// What it weighs.
    pub weight: Num,
    /// From the front supports back to the centre of gravity.
    pub centre: Num,
    /// From the front supports back to the rear ones, in the unit of `centre`.
    pub span: Num,
}

/// A unit that comes out: what it weighs, and how far its middle lies behind the front supports.
#[derive(Clone, Copy, Debug)]
pub struct Unit {
    /// What it weighs, in the unit of the vehicle's weight.
    pub weight: Num,
    /// From the front supports back to its middle, negative in front of them.
    pub position: Num,
}

/// The centre of gravity once a unit is out, in the unit of the positions. `None` when nothing is left.
///
/// ```
/// use bayhand::trade::support::{Unit, centre_after_removal};
///
/// let vehicle = Unit { weight: 3000.into(), position: 50.into() };
/// let unit = Unit { weight: 1000.into(), position: 30.into() };
/// assert_eq!(centre_after_removal(vehicle, unit), Some(60.into()));
/// ```
pub fn centre_after_removal(vehicle: Unit, removed: Unit) -> Option<Num> {
    let left = vehicle.weight - removed.weight;
    if left <= Num::ZERO {
        return None;
    }
    (vehicle.weight * vehicle.position - removed.weight * removed.position).checked_div(left)
}

/// The load on both front supports once a unit is out, in the unit of the weights. `None` when nothing is left, or
/// when what is left has its centre of gravity beyond the supports: then it tips.
pub fn front_load_after(vehicle: Standing, removed: Unit) -> Option<Num> {
    front_load(vehicle.weight - removed.weight, after(vehicle, removed)?, vehicle.span)
}

/// The load on both rear supports once a unit is out; see [`front_load_after`].
pub fn rear_load_after(vehicle: Standing, removed: Unit) -> Option<Num> {
    rear_load(vehicle.weight - removed.weight, after(vehicle, removed)?, vehicle.span)
}

/// Where two weights together have their centre; `None` when both are zero.
pub fn common_centre(first: Unit, second: Unit) -> Option<Num> {
    (first.weight * first.position + second.weight * second.position)
        .checked_div(first.weight + second.weight)
}

fn after(vehicle: Standing, removed: Unit) -> Option<Num> {
    // A vehicle that tips before the unit is out never gets there.
    front_load(vehicle.weight, vehicle.centre, vehicle.span)?;
    let whole = Unit { weight: vehicle.weight, position: vehicle.centre };
    centre_after_removal(whole, removed)
}

fn unit(given: &Given<'_>, weight: &str, position: &str) -> Result<Unit, Refusal> {
    Ok(Unit { weight: weighed(given, weight)?, position: given.number(position)? })
}

fn centre_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let vehicle = Unit { weight: vehicle_weight(given)?, position: given.number("centre")? };
    if vehicle.position.is_negative() {
        return Err(tips("centre"));
    }
    let centre =
        centre_after_removal(vehicle, unit(given, "removed", "position")?).ok_or_else(nothing_left)?;
    if centre.is_negative() {
        let note =
            "the centre of gravity then lies in front of the front supports: the vehicle tips".to_owned();
        return Ok(Answer::Noted { number: centre, note });
    }
    Ok(Answer::Number(centre))
}

type Load = fn(Standing, Unit) -> Option<Num>;

fn after_row(given: &Given<'_>, load: Load) -> Result<Answer, Refusal> {
    let vehicle = Standing {
        weight: vehicle_weight(given)?,
        centre: given.number("centre")?,
        span: given.number("span")?,
    };
    if front_load(vehicle.weight, vehicle.centre, vehicle.span).is_none() {
        return Err(tips("centre"));
    }
    let removed = unit(given, "removed", "position")?;
    if removed.weight >= vehicle.weight {
        return Err(nothing_left());
    }
    load(vehicle, removed).map(Answer::Number).ok_or_else(|| tips("removed"))
}

fn common_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let second = unit(given, "second", "second_position")?;
    common_centre(unit(given, "first", "first_position")?, second)
        .map(Answer::Number)
        .ok_or_else(|| Refusal::of_all("one of the units must weigh something"))
}

fn nothing_left() -> Refusal {
    Refusal::of("removed", "must weigh less than the whole vehicle")
}
