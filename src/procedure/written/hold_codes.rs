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

/// A short name that is none.
pub static HOLD_SHORT: Code = Code {
    name: "hold-short",
    summary: "the short name of a protection is long, or there is no protection that it names",
    teaching: "\
Every screen of a run names the protections in force, in the words of `short`. Those stand beside each other in one
row: a word or two each, at most 20 letters.

Wrong: `short = \"the vehicle stands on four rated stands\"`

Right: `short = \"on stands\"`, with `protection = \"vehicle on four stands\"`
",
};

/// A hold point that hands nothing on.
pub static HOLD_STAYS: Code = Code {
    name: "hold-stays",
    summary: "a hold point says that its protection stays in force, and it has none",
    teaching: "\
A job takes many evenings. `stays = true` lets a protection outlast its run: the vehicle stays on its stands, and a
later procedure goes on under it, with `handed_on` at a hold point that looks again at what can have changed.

Wrong: `stays = true` in a hold point without `protection`

Right: `protection = \"vehicle on four stands\"` beside it
",
};
