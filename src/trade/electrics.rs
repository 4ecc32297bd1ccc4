//! Electrics: what a cable takes of the voltage.

use super::{Answer, Function, Parameter, Refusal, Shape, Subject};
use crate::quantity::Num;

/// The functions about electrics.
pub const ELECTRICS: Subject = Subject { name: "electrics", functions: &[CABLE_DROP] };

/// Square millimetres of annealed copper at 20 °C that make a metre of it one ohm: IEC 60028, exact by definition.
const COPPER: i64 = 58;

const CABLE_DROP: Function = Function {
    name: "cable_voltage_drop",
    summary: "the voltage that a copper cable loses to a current",
    parameters: &[
        Parameter::amount("current", "A", "the current that flows").at_least("0").at_most("5000"),
        Parameter::amount(
            "length",
            "m",
            "of copper that the current goes through: there and back, unless the body leads it back",
        )
        .at_least("0")
        .at_most("1000"),
        Parameter::amount("area", "mm²", "the cross-section of the copper").above("0").at_most("1000"),
    ],
    result: Shape::Amount("V"),
    call: |given| {
        cable_voltage_drop(given.number("current")?, given.number("length")?, given.number("area")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("area", "must be more than 0 mm²"))
    },
    assumes: &[
        "copper at 20 °C, each 10 K more take 4 % more; terminals, switches and fuses come on top",
        "how much may be lost, and which cable and fuse belong there, the vehicle's service information says",
    ],
    source: "Ohm's law with the resistivity of annealed copper, 1/58 Ω·mm²/m (IEC 60028)",
    example: "cable_voltage_drop(150 A, length = 3 m, area = 35 mm²)",
};

/// The drop in volts of a current in amperes through so many metres of copper of a cross-section in mm²; exact. `None`
/// without a cross-section.
///
/// ```
/// use bayhand::trade::electrics::cable_voltage_drop;
///
/// assert_eq!(cable_voltage_drop(58.into(), 2.into(), 1.into()), Some(2.into()));
/// ```
pub fn cable_voltage_drop(current: Num, length: Num, area: Num) -> Option<Num> {
    (current * length).checked_div(area * COPPER.into())
}
