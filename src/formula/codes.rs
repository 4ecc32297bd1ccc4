//! What can be wrong with a formula, and what `bayhand explain` teaches about it.

use crate::source::Code;

/// Every code of this area, sorted by name.
pub static CODES: &[&Code] = &[
    &ARGUMENT_MISSING,
    &ARGUMENT_UNKNOWN,
    &ARGUMENT_UNNAMED,
    &CHOICE_UNKNOWN,
    &DIVISION_BY_ZERO,
    &FORMULA_SYNTAX,
    &FORMULA_TOO_LARGE,
    &FUNCTION_UNKNOWN,
    &NAME_NEEDED,
    &NAME_UNKNOWN,
    &OUT_OF_RANGE,
    &TEMPERATURE_SCALE,
    &TYPE_MISMATCH,
    &UNIT_MISMATCH,
    &UNIT_UNKNOWN,
    &VALUE_MISSING,
];

/// A function is called without something that it needs.
pub static ARGUMENT_MISSING: Code = Code {
    name: "argument-missing",
    summary: "a function is called without something that it needs",
    teaching: "\
A function needs all its parameters, except those that have a default. They are given in order, or by name, or \
first some in order and then the rest by name.

Wrong: `round(flow)`

Right: `round(flow, to = 0.1 L/min)`",
};

/// A function is given something that it does not take.
pub static ARGUMENT_UNKNOWN: Code = Code {
    name: "argument-unknown",
    summary: "a function is given something that it does not take, or the same thing twice",
    teaching: "\
Each argument belongs to one parameter: by its place, or by its name. An argument too many, a name that the \
function does not have and a parameter given twice are mistakes, because the result would not be what the \
author meant. `bayhand calc --help NAME` teaches a function with its parameters.

Wrong: `round(flow, step = 0.1 L/min)`

Right: `round(flow, to = 0.1 L/min)`",
};

/// An argument without its name that is easily taken for another one.
pub static ARGUMENT_UNNAMED: Code = Code {
    name: "argument-unnamed",
    summary: "an argument without its name is easily taken for another one",
    teaching: "\
Where a function takes two things of one kind, such as two volumes, turning them round would give an answer that \
looks right and is wrong. So only the first of a kind may stand without its name. The names stand in \
`bayhand calc --help NAME`, and what was given for each is said beside the result.

Wrong: `fluid_to_add(9 qt, 5.5 qt)`

Right: `fluid_to_add(drained = 9 qt, filled = 5.5 qt)`",
};

/// A comparison with a text that the name can never have.
pub static CHOICE_UNKNOWN: Code = Code {
    name: "choice-unknown",
    summary: "a comparison with a text that can never be there",
    teaching: "\
A reading with choices is always one of them, letter for letter. A comparison with any other text is never true, \
and a condition built on it would silently skip its steps.

Wrong: `look == \"claer\"` where the choices are `clear` and `milky`

Right: `look == \"clear\"`",
};

/// Something is divided by zero.
pub static DIVISION_BY_ZERO: Code = Code {
    name: "division-by-zero",
    summary: "something is divided by zero",
    teaching: "\
A value that a formula divides by came out as zero, so that there is no result. Check the reading behind it: a \
time of 0 s is most often a stopwatch that was not started.

Wrong: `caught / took` with `took` read as `0 s`

Right: take the reading again, or guard it: `if took > 0 s then caught / took else 0 L/min`",
};

/// A formula cannot be read.
pub static FORMULA_SYNTAX: Code = Code {
    name: "formula-syntax",
    summary: "a formula cannot be read",
    teaching: "\
A formula is ordinary arithmetic: `+ - * /`, `^` for whole powers, brackets, the comparisons `< <= > >= == !=`, \
`and`, `or`, `not`, `if A then B else C`, functions with arguments in brackets, and texts in quotes. A unit \
stands directly after its number, or after one space, and has no space inside. Decimals have a point.

Wrong: `2 (flow + 1,5 L/min)`

Right: `2 * (flow + 1.5 L/min)`",
};

/// A formula is longer or deeper than any that a person could check.
pub static FORMULA_TOO_LARGE: Code = Code {
    name: "formula-too-large",
    summary: "a formula is longer or deeper than any that a person could check",
    teaching: "\
A formula has at most 4096 bytes and 200 levels of brackets or operators. Nobody can check by eye what is longer.

Right: split it into several entries of `[values]`, each with a name, a unit and a line that says what it is.",
};

/// A function that does not exist.
pub static FUNCTION_UNKNOWN: Code = Code {
    name: "function-unknown",
    summary: "there is no function of this name",
    teaching: "\
A name directly before a bracket is a function. `bayhand calc --list` names those that work on values; \
`first`, `last`, `before` and `count` look at the passes of a repeat. To multiply by a bracket, write `*`.

Wrong: `average(first, second)`, `supply (1 + loss)`

Right: `mean(first, second)`, `supply * (1 + loss)`",
};

/// A function over the passes of a repeat is called with something else than one name.
pub static NAME_NEEDED: Code = Code {
    name: "name-needed",
    summary: "a function over the passes of a repeat is called with something else than one name",
    teaching: "\
In a repeat each pass gives a reading or a value once more. `first`, `last`, `before` and `count` look at one name \
in all passes that count; so do `mean`, `min`, `max`, `sum`, `spread` and `standard_deviation` when they are given one value alone, and \
with `last = 3` they look at the newest three only. What is computed needs a name of its own for that, so that each \
pass has its value and the record shows it: declare it in `[values]` and mention it in the step that is repeated. \
Conditions, vehicle values and the names of repeats have no value in each pass.

Wrong: `max(abs(gap - 0 mm))`, `mean(caught / took, last = 3)`, `before(pan_temp - room_temp)`

Right: `max(off)` with `formula = 'abs(gap - 0 mm)'` under `[values.off]`, `before(pan_temp) - before(room_temp)`",
};

/// A name that is not declared.
pub static NAME_UNKNOWN: Code = Code {
    name: "name-unknown",
    summary: "there is nothing of this name",
    teaching: "\
A formula may name readings, values, conditions and what is known of the vehicle, as they are declared in the \
front matter, letter for letter.

Wrong: `pan_tmep - room_temp`

Right: `pan_temp - room_temp`",
};

/// A function does not hold for this value.
pub static OUT_OF_RANGE: Code = Code {
    name: "out-of-range",
    summary: "a value lies outside the range for which a computation holds",
    teaching: "\
Each function of the trade holds for a range of values only; outside it a number would come out that means \
nothing. The message says the range. Most often the unit is another one than was meant, or a digit slipped.

Wrong: `sqrt(-4)`

Right: `sqrt(4)`",
};

/// A temperature on a scale is used as if it were an amount.
pub static TEMPERATURE_SCALE: Code = Code {
    name: "temperature-scale",
    summary: "a temperature on a scale is used as if it were an amount",
    teaching: "\
20 °C is a place on a scale, not an amount of something: twice 20 °C is not 40 °C (in °F the same sum gives \
another answer). Two temperatures have a difference; a temperature plus or minus a difference is a temperature; \
`mean`, `min` and `max` of temperatures are temperatures. A difference is written in `K`, `Δ°C` or `Δ°F`.

Wrong: `pan_temp + 5 °C`, `2 * pan_temp`, `pan_temp - room_temp < 5 °C`

Right: `pan_temp + 5 K`, `pan_temp - room_temp < 9 Δ°F`",
};

/// A number, a text or a truth stands where another sort of thing is needed.
pub static TYPE_MISMATCH: Code = Code {
    name: "type-mismatch",
    summary: "a number, a text or true-or-false stands where something else is needed",
    teaching: "\
There are three sorts of things: quantities (a number with a unit, or a plain number), texts, and true or false. \
Arithmetic takes quantities; `and`, `or`, `not` and `if` take true or false; texts can only be compared with \
`==` and `!=`.

Wrong: `if supply then 1 else 2`

Right: `if supply > 30 psi then 1 else 2`",
};

/// Two quantities that measure different things are put together.
pub static UNIT_MISMATCH: Code = Code {
    name: "unit-mismatch",
    summary: "quantities that measure different things are put together",
    teaching: "\
Only quantities of one sort can be added, subtracted or compared: lengths with lengths, pressures with \
pressures, whatever their units. Each formula is proved before a run can start, so that no run meets this.

Wrong: `volume + 5 s`, `supply < 30`

Right: `volume + 5 mL`, `supply < 30 psi`",
};

/// A unit that is not in the table.
pub static UNIT_UNKNOWN: Code = Code {
    name: "unit-unknown",
    summary: "there is no unit of this name",
    teaching: "\
What stands directly after a number, or after one space, is its unit. Products are written `lbf·ft`, quotients \
`L/min`, powers `mm²` or `mm^2`. To multiply a number by something that has a name, write `*`.

Wrong: `5 quats`, `2 flow`

Right: `5 qt`, `2 * flow`",
};

/// Something is not known yet.
pub static VALUE_MISSING: Code = Code {
    name: "value-missing",
    summary: "something that a formula needs is not known yet",
    teaching: "\
A formula can be worked out when everything it names has been read. Take the missing reading first, or give the \
missing value in the vehicle sheet. What looks at several passes of a repeat is known after so many passes: \
`if pass > 1 then abs(pan_temp - before(pan_temp)) else 0 K` has a result in the first pass too.",
};
