//! What can be wrong with a vehicle value as it is declared.

use crate::source::Code;

/// A usual value that is none.
pub static USUAL_WRONG: Code = Code {
    name: "usual-wrong",
    summary: "a usual value has no reason, is of another kind, or is a torque",
    teaching: "\
Where neither the sheet nor a manual gives a figure, the usual one is offered, and accepted by name. It says why
it is common practice. A torque has none: it comes from the vehicle's service information, or from nowhere.

Wrong: `usual = \"27 N·m\"`

Right: `usual = \"10 s\"` with `usual_why = \"long enough for the idle to settle (common practice)\"`
",
};
