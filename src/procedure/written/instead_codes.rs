//! What can be wrong with `instead`.

use crate::source::Code;

/// Words that could be another answer.
pub static INSTEAD_AMBIGUOUS: Code = Code {
    name: "instead-ambiguous",
    summary: "a named outcome can be taken for another answer",
    teaching: "\
Whoever types the words of an outcome means it and nothing else. So they are no number that the reading can have,
none of its choices, and each stands there once.

Wrong: `unit = \"s\"` with `instead = { \"0 s\" = \"pass\" }`

Right: `instead = { \"does not burn\" = \"pass\" }`
",
};

/// An outcome of nothing.
pub static INSTEAD_EMPTY: Code = Code {
    name: "instead-empty",
    summary: "`instead` has no outcome, or one without words",
    teaching: "\
`instead` names what can come out in place of a value. Each outcome has words of its own and a verdict: `\"pass\"`,
`\"fail\"` or `\"information only\"`.

Wrong: `instead = {}`, `instead = { \"\" = \"pass\" }`

Right: `instead = { \"does not burn\" = \"pass\", \"never reached\" = \"fail\" }`
",
};

/// Outcomes beside an answer that can say anything.
pub static INSTEAD_MISPLACED: Code = Code {
    name: "instead-misplaced",
    summary: "`instead` stands at a reading that has no use for it",
    teaching: "\
A quantity, a count or a choice can come out as none of its values; then `instead` names the outcome. A text and a
list say it themselves, a file is there or is not, a date has its days.

Wrong: `kind = \"text\"` with `instead = { \"cannot be read\" = \"fail\" }`

Right: `unit = \"s\"` with `instead = { \"does not burn\" = \"pass\" }`
",
};
