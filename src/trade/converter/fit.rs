//! Whether the converter is home: how far it has to come forward to the drive plate.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Shape};

pub(super) const PULL_UP_GAP: Function = Function {
    name: "pull_up_gap",
    summary: "how far the converter has to come forward to meet the drive plate; at or below zero it is not home",
    parameters: &[
        Parameter::amount(
            "depth",
            "mm",
            "from the face of the bell housing back to the converter's mounting pads, or to the straightedge's far side",
        )
        .at_least("-1000").at_most("1000"),
        Parameter::amount(
            "plate",
            "mm",
            "from the face of the engine block back to the drive plate's mounting face; 0 mm if flush with it",
        )
        .at_least("-1000").at_most("1000"),
        Parameter::amount(
            "straightedge",
            "mm",
            "the thickness of the straightedge, if it was measured across",
        )
        .at_least("0")
        .at_most("500")
        .or("0 mm"),
    ],
    result: Shape::Amount("mm"),
    call: |given| {
        let depth = given.number("depth")? - given.number("straightedge")?;
        Ok(Answer::Number(pull_up_gap(depth, given.number("plate")?)))
    },
    assumes: &["the vehicle's own figure for the gap decides; sources do not agree on what is measured"],
    source: "common practice: the difference of the two depths",
    example: "pull_up_gap(25 mm, plate = 21 mm)",
};

/// How far the converter comes forward: its pads lie `depth` behind the face of the bell housing, the drive plate
/// `plate` behind the face of the block; all in one unit.
///
/// ```
/// use bayhand::trade::converter::pull_up_gap;
///
/// assert_eq!(pull_up_gap(25.into(), 21.into()), 4.into());
/// ```
pub fn pull_up_gap(depth: Num, plate: Num) -> Num {
    depth - plate
}
