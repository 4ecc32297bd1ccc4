//! What can be wrong with a job.

use crate::source::Code;

/// All codes of this area, sorted by name.
pub static CODES: &[&Code] = &[
    &BALANCE_NUMBER,
    &BALANCE_RESULT,
    &BALANCE_UNCLEAR,
    &BALANCE_UNIT,
    &JOB_CIRCLE,
    &JOB_EMPTY,
    &JOB_HANDED_ON,
    &JOB_NEVER_ENDED,
    &JOB_TWICE,
    &JOB_UNKNOWN,
];

/// A result without a number in a sum.
pub static BALANCE_NUMBER: Code = Code {
    name: "balance-number",
    summary: "a balance sums a result that is no number",
    teaching: "\
A sum goes over quantities and counts. Words, choices, lists, files and dates are told one below the other.

Wrong: `unit = \"L\"` with `plus = [\"look in drain\"]`, where `look` is one of several choices

Right: `lists = [\"look in drain\"]`
",
};

/// A result that its procedure does not have.
pub static BALANCE_RESULT: Code = Code {
    name: "balance-result",
    summary: "a balance speaks of a result that its procedure does not have",
    teaching: "\
A balance goes over readings, computed values and vehicle values of the procedures in the list, each by its name
in that procedure.

Wrong: `plus = [\"drained in refit\"]`, where `refit.md` declares no `drained`

Right: `plus = [\"drained in drain\"]`
",
};

/// A balance that is neither a sum nor a list.
pub static BALANCE_UNCLEAR: Code = Code {
    name: "balance-unclear",
    summary: "a balance is neither a sum nor a list",
    teaching: "\
A sum has the `unit` that it is shown in, what counts as more under `plus` and, where something goes the other
way, what counts as less under `minus`. A list has `lists`, and neither unit nor sum.

Wrong: `plus = [\"drained in drain\"]` without `unit`

Right: `unit = \"L\"` with `plus = [\"filled in fill\"]` and `minus = [\"drained in drain\"]`
",
};

/// A result that measures something else.
pub static BALANCE_UNIT: Code = Code {
    name: "balance-unit",
    summary: "a balance sums a result that measures something else",
    teaching: "\
All that is summed measures the same thing. The units may differ: litres and quarts have a sum, litres and
kilometres have none.

Wrong: `unit = \"L\"` with `plus = [\"oil_temp in drain\"]`

Right: `unit = \"L\"` with `plus = [\"drained in drain\"]`
",
};

/// Procedures that wait for each other.
pub static JOB_CIRCLE: Code = Code {
    name: "job-circle",
    summary: "procedures of a job wait for each other in a circle",
    teaching: "\
Each procedure is done after the one that stands before it in the list, or after those that `after` names. Round
a circle none could ever begin. The message shows the circle whole.

Wrong: `after = [\"refit\"]` for `strip`, and `after = [\"strip\"]` for `refit`

Right: `after = [\"strip\"]` for `refit` alone
",
};

/// A job without procedures.
pub static JOB_EMPTY: Code = Code {
    name: "job-empty",
    summary: "a job lists no procedure",
    teaching: "\
A job is an ordered list whose items are links to procedures, each a file of its own.

Wrong: a list of words

Right: `1. [Raise and support](raise-and-support.md)`
",
};

/// Something that is handed on from nowhere.
pub static JOB_HANDED_ON: Code = Code {
    name: "job-handed-on",
    summary: "a procedure of a job wants something that no earlier one hands on",
    teaching: "\
`handed_on` names a result, or a hold point whose protection stays in force, of a procedure that comes before in
the same job, directly or by others. A result is of the same kind as the value that takes it.

Wrong: `handed_on = \"drained in drain\"` where `drain` comes later, or has no `drained`

Right: the procedure that reads `drained` stands earlier in the list
",
};

/// A protection that a job never ends.
pub static JOB_NEVER_ENDED: Code = Code {
    name: "job-never-ended",
    summary: "no procedure of a job ends a protection that stays in force",
    teaching: "\
A protection that outlasts its run (`stays = true`) is ended by a hold point of a later procedure of the job.

Wrong: `support` of `raise` stays, and the vehicle is never let down

Right: `ends = [\"support in raise\"]` in `[holds.lowering]` of `lower`
",
};

/// A procedure that a job lists twice.
pub static JOB_TWICE: Code = Code {
    name: "job-twice",
    summary: "a job lists one procedure twice",
    teaching: "\
A procedure is known in its job by its file's name, so it stands there once. What is done again is a second file,
or a repeat within the procedure.

Wrong: the same link in two items

Right: each link once
",
};

/// A name that is no procedure of the job.
pub static JOB_UNKNOWN: Code = Code {
    name: "job-unknown",
    summary: "a job speaks of a procedure that is not in its list",
    teaching: "\
What stands under `[procedures]`, and in `after`, is the file's name of a procedure of the list, without the
ending.

Wrong: `[procedures.\"refit.md\"]`, or a name that no item links to

Right: `[procedures.refit]` with `1. [Refit](refit.md)` in the list
",
};
