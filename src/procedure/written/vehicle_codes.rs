//! What can be wrong with a vehicle value as it is declared.

use crate::source::Code;

/// Something that comes from nowhere.
pub static HANDED_ON_WRONG: Code = Code {
    name: "handed-on-wrong",
    summary: "what is handed on does not say its name and its procedure",
    teaching: "\
In a job a vehicle value can be the result of an earlier procedure, and a protection one that an earlier one left
in force: its name there, and that procedure's file without the ending. It comes with its run, entry and time.

Wrong: `handed_on = \"drained\"`

Right: `handed_on = \"drained in battery-drain-exhaust\"`
",
};

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
