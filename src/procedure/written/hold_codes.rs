//! What can be wrong with a hold point as it is declared.

use crate::source::Code;

/// An empty hold point.
pub static HOLD_CONFIRMS_NOTHING: Code = Code {
    name: "hold-confirms-nothing",
    summary: "a hold point has neither statements nor readings",
    teaching: "\
A hold point stops the job until something has been seen or measured. Say what: statements that are confirmed one
by one, or readings that are taken each time.

Wrong: `[holds.support]` with only `what` and `release`

Right: the same with `confirm = [\"all four pins are locked\", \"the vehicle does not move when pushed\"]`
",
};

/// Statements that nothing asks anew.
pub static HOLD_ANEW_NEVER: Code = Code {
    name: "hold-anew-never",
    summary: "statements are asked anew after a retake, and the hold point reads nothing",
    teaching: "\
`anew_after_retake` lists statements that are asked again once a reading of the hold point is taken a second time:
a stand that was set anew has its pins and its ground looked at anew. Without `readings` nothing is taken twice.

Wrong: `anew_after_retake = [\"all four pins are locked\"]` in a hold point without `readings`

Right: the same with `readings = [\"stand_height\"]`
",
};
