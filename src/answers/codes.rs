//! What can be wrong with a file of answers.

use crate::source::{Code, Diagnostic, Span};

/// The file of answers cannot be read.
pub static ANSWERS_FILE: Code = Code {
    name: "answers-file",
    summary: "the file of answers is not written as it should be",
    teaching: "A file of answers is TOML: `format = 1`, the time at which it begins (`clock`), and `answers`, one table a \
line: where the run stands (`at`), and what is entered (`enter`) or done (`do`).

What can be done: `read` (the resume brief), `acknowledge`, `true`, `untrue` (with `state`), `good` and `not good` (beside a nominal value, the latter with `state`), `done`, `again` (with \
`reason`), `accept` and `dispose` (with `disposition` and `reason`), `not applicable` (with `reason`), `later` (with \
`before` and `reason`), `correct` (with `reading`, `enter` and `reason`, of an \
earlier pass with `pass`, its number or its item; a value of the vehicle with its `source`, and `odometer`; of a name with \
its `role`), `instrument` (with \
`tool`, `enter` and `due`), `note`, `loose end` (with `reason`), `settle` and `carry out` (a loose end, with `end`, its words, and `reason`; the latter with `by`, who sees to it; at `loose end` it is passed over in a run of a job that is not its last), `disturbed` (with `reason`; with the `hold` that was touched, or none for all), \
`complete` (a section that is asked about), `work done` (of a section that is confirmed afterwards), `counts` and `invalid` (a pass whose \
end is asked about, the latter with `reason`; `invalid` also at the question after a pass that counted by itself), `one more` (with `reason`), `give up` (with `disposition` and `reason`), `begin anew` (the \
section, with `reason`), `missed` (the procedure's path for a missed wait), `early` (a row of a log before it is due), at a group \
of fasteners `stage set`, `done`, `left out` (with `reason`), `loosened` (with `group`, `reason` and, for one place, \
`position`) and `correct` (with `group`, `stage`, `position`, `enter` and `reason`), `suspend` (with `reason`, `state` \
and, where it helps, `first`: what comes first next time) and `stop` (with `reason` and `state`), `keep` (the person of a \
role; a protection in force when the sitting ends) and `make safe` (such a protection), `deviation` (with `enter`, its \
sort, and `reason`), `not approved` (a step left out, with `reason`; the lead's name or initials in `enter` approve it), \
`take over` (a `role`, with the name in `enter` and what has to be known in \
`reason`), `absent` (with `reason`), `re-inspect` (with the name in `enter`, and `reason`), `wait` (until a wait is \
over), `close`. A vehicle value has its \
`source`, an instrument the day on which its calibration is `due`, an unlikely value `sure = true`; `after` is the time since the answer before. What was done before it is \
entered has `done_at` (a time, or a date and a time) and `late` (why: `from paper`).

Wrong: `answers = [{ at = \"caught\", answer = \"1 qt\" }]`

Right: `answers = [{ at = \"caught\", enter = \"1 qt\" }]`",
};

/// An answer is missing, or stands where something else is asked.
pub static ANSWERS_DIFFER: Code = Code {
    name: "answers-differ",
    summary: "the answers in the file are not those that the run asks for",
    teaching: "The answers of a file are given in the order in which the run asks. Each says in `at` where it belongs: the \
name of a role, a reading, a hazard or a hold point, or the number of a step. When the run asks for something else, \
the file has an answer too few or too many, and the run stands still there: nothing entered is lost.

Wrong: an answer `at = \"2.3\"` while the run asks for the reading `supply` of step 2.2.

Right: put `{ at = \"supply\", enter = \"28 psi\" }` before it.",
};

/// The codes of this folder, by name.
pub static CODES: &[&Code] = &[&ANSWERS_DIFFER, &ANSWERS_FILE];

pub(super) fn problem(place: Span, label: &str, message: &str) -> Diagnostic {
    Diagnostic::error(&ANSWERS_FILE, message).at(place, label)
}
