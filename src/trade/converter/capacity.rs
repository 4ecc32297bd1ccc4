//! What torque a converter takes at which speed: its K-factor, rpm over the square root of torque.
//!
//! Some published pages multiply where this divides. With the product, a converter that lets the engine turn faster at
//! the same torque would not have the larger factor, and a factor would hold at one torque only.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// Units of torque in which a K-factor may be stated.
const PER: &[&str] = &["lbf·ft", "N·m"];
/// Newton metres in one pound-force foot, exact: 0.3048 m · 0.45359237 kg · 9.80665 m/s².
const POUND_FOOT: (i128, i128) = (13_558_179_483_314_004, 10_000_000_000_000_000);

const SPEED: Parameter = Parameter::amount("speed", "rpm", "the speed of the engine").above("0");
const TORQUE: Parameter =
    Parameter::amount("torque", "N·m", "the torque of the engine at that speed").above("0");
const K: Parameter =
    Parameter::number("k", "the K-factor at this speed ratio, from the converter's data").above("0");
const PER_TORQUE: Parameter =
    Parameter::choice("per", PER, "the unit of torque in which the K-factor is stated").or("lbf·ft");

const SOURCE: &str = "definition: K = rpm / sqrt(torque), the torque in lbf·ft unless said otherwise";
const ONE_RATIO: &str = "the K-factor belongs to one speed ratio, at stall unless said otherwise";

pub(super) const K_FACTOR: Function = Function {
    name: "k_factor",
    summary: "the K-factor of a converter, from a speed and the torque it takes there",
    parameters: &[SPEED, TORQUE, PER_TORQUE],
    result: Shape::Number,
    call: |given| answer(k_factor(given.number("speed")?, torque(given)?)),
    assumes: &[ONE_RATIO],
    source: SOURCE,
    example: "k_factor(2500 rpm, torque = 280 lbf·ft)",
};

pub(super) const TORQUE_ABSORBED: Function = Function {
    name: "torque_absorbed",
    summary: "the torque that a converter of a K-factor takes at a speed",
    parameters: &[K, SPEED, PER_TORQUE],
    result: Shape::Amount("N·m"),
    call: torque_absorbed_row,
    assumes: &[ONE_RATIO],
    source: SOURCE,
    example: "torque_absorbed(150, speed = 2500 rpm)",
};

pub(super) const STALL_SPEED: Function = Function {
    name: "stall_speed",
    summary: "the speed at which a converter of a K-factor holds the engine's torque",
    parameters: &[K, TORQUE, PER_TORQUE],
    result: Shape::Amount("rpm"),
    call: |given| answer(stall_speed(given.number("k")?, torque(given)?)),
    assumes: &["the K-factor is the one at stall"],
    source: SOURCE,
    example: "stall_speed(150, torque = 400 lbf·ft)",
};

/// The K-factor of a converter that takes `torque` at `speed` rpm; in rpm over the root of the unit of `torque`.
/// `None` when the torque is not above zero.
///
/// ```
/// use bayhand::trade::converter::k_factor;
///
/// assert_eq!(k_factor(4000.into(), 400.into()), Some(200.into()));
/// ```
pub fn k_factor(speed: Num, torque: Num) -> Option<Num> {
    speed.checked_div(torque.sqrt()?)
}

/// The torque that a converter of factor `k` takes at `speed` rpm, in the unit of torque of `k`; exact. `None` when
/// `k` is zero.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::converter::torque_absorbed;
///
/// assert_eq!(torque_absorbed(150.into(), 2500.into()), Num::ratio(2500, 9));
/// ```
pub fn torque_absorbed(k: Num, speed: Num) -> Option<Num> {
    speed.checked_div(k)?.powi(2)
}

/// The speed in rpm at which a converter of factor `k` takes `torque`, in the unit of torque of `k`. `None` below
/// zero torque.
///
/// ```
/// use bayhand::trade::converter::stall_speed;
///
/// assert_eq!(stall_speed(150.into(), 400.into()), Some(3000.into()));
/// ```
pub fn stall_speed(k: Num, torque: Num) -> Option<Num> {
    Some(k * torque.sqrt()?)
}

fn unit_of_torque(given: &Given<'_>) -> Result<Num, Refusal> {
    let (newton_metres, whole) = if given.text("per")? == "N·m" { (1, 1) } else { POUND_FOOT };
    Ok(Num::ratio(newton_metres, whole).unwrap_or(Num::ONE))
}

/// The torque in the unit that belongs to the K-factor.
fn torque(given: &Given<'_>) -> Result<Num, Refusal> {
    let torque = given.number("torque")?;
    Ok(torque.checked_div(unit_of_torque(given)?).unwrap_or(torque))
}

fn torque_absorbed_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let unit = unit_of_torque(given)?;
    let torque = torque_absorbed(given.number("k")?, given.number("speed")?);
    answer(torque.map(|torque| torque * unit))
}

fn answer(number: Option<Num>) -> Result<Answer, Refusal> {
    number
        .map(Answer::Number)
        .ok_or_else(|| Refusal::of_all("speed, torque and K-factor must be more than zero"))
}
