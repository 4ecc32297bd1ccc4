//! What can be wrong between a formula and what it belongs to.

use crate::source::Code;

/// An amount that depends on the job.
pub static AMOUNT_NOT_KNOWN: Code = Code {
    name: "amount-not-known",
    summary: "an amount depends on something that is only known during the job",
    teaching: "\
The kit is bought and packed before the job begins. An amount may use numbers and vehicle values, not readings.

Wrong: `amount = 'drained + 1 L'`

Right: `amount = 'pan_volume + 1 L'` with `pan_volume` under `[vehicle]`
",
};

/// A count that nothing can be counted by.
pub static COUNT_WRONG: Code = Code {
    name: "count-wrong",
    summary: "a number of passes or of places is no number that can be counted to",
    teaching: "\
`times` and `at_most` are whole numbers from 1 to 1000, the `count` of fasteners one from 1 to 200. Half a pass is
never over, and none is no repeat. A repeat that `at_most` ends before `times` are made is never done.

Wrong: `times = 2.5`, `at_most = 0`, `times = '5 - 6'`, `times = 5` with `at_most = 3`

Right: `times = 3`, or `times = 'stud_count'` with a value that is known in the run
",
};

/// A condition that is a number.
pub static CONDITION_NOT_TRUTH: Code = Code {
    name: "condition-not-truth",
    summary: "a condition is neither true nor false",
    teaching: "\
A condition compares something with something: `<`, `<=`, `>`, `>=`, `==`, `!=`, joined with `and`, `or`, `not`.

Wrong: `if = 'pan_temp'`

Right: `if = 'pan_temp < 30 °C'`
",
};

/// A name without a value.
pub static FORMULA_NAME: Code = Code {
    name: "formula-name",
    summary: "a formula names something that has no value",
    teaching: "\
Formulas work with readings, computed values, vehicle values and conditions. A tool, a role, a hazard, a wait or a
date has no value to reckon with.

Wrong: `formula = 'jug / took'`

Right: `formula = 'caught / took'`, where `caught` is a reading taken with the jug
",
};

/// A value whose formula gives something else.
pub static FORMULA_UNIT: Code = Code {
    name: "formula-unit",
    summary: "the formula of a value does not give what its unit measures",
    teaching: "\
A volume divided by a time is a flow, and a flow is shown in a unit of flow. When the two differ, either the unit
or the formula is mistyped.

Wrong: `formula = 'caught / took'` with `unit = \"L\"`

Right: `formula = 'caught / took'` with `unit = \"L/min\"`
",
};

/// A limit in the wrong unit.
pub static LIMIT_UNIT: Code = Code {
    name: "limit-unit",
    summary: "a limit is not of the kind that is read",
    teaching: "\
A temperature is limited by a temperature, a pressure by a pressure. Any unit of that kind will do. `within` is a
difference: `5 K`, not `5 °C`, which would be a place on the scale.

Wrong: `unit = \"°C\"` with `max = \"163 psi\"`

Right: `unit = \"°C\"` with `max = \"163 °F\"`
",
};
