//! What can be wrong with a declaration before any name is followed.

use super::due_codes::DUE_UNCLEAR;
use super::hold_codes::{HOLD_ANEW_NEVER, HOLD_CONFIRMS_NOTHING, HOLD_SHORT, HOLD_STAYS};
use super::instead_codes::{INSTEAD_AMBIGUOUS, INSTEAD_EMPTY, INSTEAD_MISPLACED};
use super::result_of::RESULT_OF_WRONG;
use super::{supply_codes::PRICE_UNCLEAR, vehicle_codes::USUAL_WRONG};
use crate::source::{Code, Diagnostic, Spanned, suggest};

/// All codes of this stage, sorted by name.
pub static CODES: &[&Code] = &[
    &ACCURACY_WRONG,
    &CEILING_UNCLEAR,
    &CHOICES_WRONG,
    &CONDITION_UNCLEAR,
    &CRITICAL_UNCLEAR,
    &DUE_UNCLEAR,
    &FASTENERS_ORDER,
    &FASTENERS_UNCLEAR,
    &FIX_WITHOUT_LIMIT,
    &HOLD_ANEW_NEVER,
    &HOLD_CONFIRMS_NOTHING,
    &HOLD_SHORT,
    &HOLD_STAYS,
    &INSTEAD_AMBIGUOUS,
    &INSTEAD_EMPTY,
    &INSTEAD_MISPLACED,
    &KIND_UNCLEAR,
    &LIMITS_CONFLICT,
    &LIMITS_MISPLACED,
    &LIMITS_MISSING,
    &LIMITS_REVERSED,
    &LOG_UNCLEAR,
    &NONE_NOT_SAID,
    &OCCASION_UNCLEAR,
    &PASSES_UNCLEAR,
    &PLAUSIBLE_WRONG,
    &PRICE_UNCLEAR,
    &SECOND_UNCLEAR,
    &RANGE_WRONG,
    &RESULT_OF_WRONG,
    &STOPWATCH_NOT_TIME,
    &TARGET_WITHOUT_WITHIN,
    &USUAL_WRONG,
    &WAIT_WITHOUT_TIME,
    &WORD_UNKNOWN,
];

/// An accuracy of nothing, or of less.
pub static ACCURACY_WRONG: Code = Code {
    name: "accuracy-wrong",
    summary: "the accuracy of an instrument is not more than zero",
    teaching: "\
An accuracy says by how much an instrument may be off, up or down. It has no sign, and no instrument is off by
nothing: with zero a guard band would have no width, and each reading would count as certain.

Wrong: `accuracy = \"0 psi\"`, `accuracy = \"-1 psi\"`

Right: `accuracy = \"1 psi\"`, or no `accuracy` where it is not known
",
};

/// Half a ceiling.
pub static CEILING_UNCLEAR: Code = Code {
    name: "ceiling-unclear",
    summary: "what a reading must never pass, or what happens then, is not said",
    teaching: "\
A ceiling (`never_above`, `never_below`) is no limit to be judged by: beyond it the job does not go on at all. The
hold point that `opens` names is verified again, then the reading is taken again. It takes both.

Wrong: `never_above = \"4 bar\"` alone

Right: `never_above = \"4 bar\"` with `opens = \"line_shut\"`
",
};

/// Choices that are none, and accepted choices that are not among them.
pub static CHOICES_WRONG: Code = Code {
    name: "choices-wrong",
    summary: "the choices of a reading, or the accepted ones, do not fit together",
    teaching: "\
A choice needs at least two different answers, and each accepted answer must be one of them, letter by letter.

Wrong: `choices = [\"clear\", \"cloudy\"]` with `accept = [\"clean\"]`

Right: `accept = [\"clear\"]`
",
};

/// A condition that rests on two things.
pub static CONDITION_UNCLEAR: Code = Code {
    name: "condition-unclear",
    summary: "a condition rests on more than one thing",
    teaching: "\
A condition has a formula (`if`), or says that a wait was missed (`missed`), that a repeat was given up
(`gave_up`), or that a result fails (`failed`). A step can name two conditions: then both must hold.

Wrong: `late = { missed = \"glue\", if = 'temp < 10 °C' }`

Right: `late = { missed = \"glue\" }` and `cold = { if = 'temp < 10 °C' }`
",
};

/// A critical act that asks for nothing, or for two things.
pub static CRITICAL_UNCLEAR: Code = Code {
    name: "critical-unclear",
    summary: "a critical act does not say what is typed before it",
    teaching: "\
Before an act that cannot be undone the person types something, so that no key held down can pass it: a word or two
(`type`), or the amount that matters (`value`). One letter, or the same letter again and again, is what a key held
down types.

Wrong: `[critical.cut]` with only `what`, or with `type = \"y\"`

Right: the same with `type = \"cut\"`, or `value = 'cut_length'`
",
};

/// An order of fasteners that is not one of all of them.
pub static FASTENERS_ORDER: Code = Code {
    name: "fasteners-order",
    summary: "a given order of fasteners does not name each place once",
    teaching: "\
An order that leaves a place out leaves a fastener loose. A given order names each of the `positions` exactly
once; a group whose places are counted is done as they are numbered, or crosswise.

Wrong: `positions = [\"a\", \"b\", \"c\"]` and `order = [\"a\", \"c\"]`

Right: `positions = [\"a\", \"b\", \"c\"]` and `order = [\"a\", \"c\", \"b\"]`
",
};

/// Fasteners that cannot be worked through.
pub static FASTENERS_UNCLEAR: Code = Code {
    name: "fasteners-unclear",
    summary: "a group of fasteners lacks its positions, its stages, or what they mean",
    teaching: "\
A group of fasteners has positions (a list, or a count) and stages. A stage has a name, and a torque or an angle
where there is one, or a unit with limits, with a nominal value, or for information only; a stage that is read says
what is good.

Wrong: `[fasteners.pan]` with only `what`

Right: `positions = [\"1\", \"2\"]` and `stages = [\"by hand\", { what = \"full\", torque = 'pan_torque' }]`
",
};

/// A fix for what cannot happen.
pub static FIX_WITHOUT_LIMIT: Code = Code {
    name: "fix-without-limit",
    summary: "`too_low` or `too_high` stands where there is no such limit",
    teaching: "\
`too_low` is shown when a result is below its lower limit, `too_high` when it is above its upper one. Without that
limit nobody ever reads it. What helps on either side is `fails`.

Wrong: `max = \"30 psi\"` with `too_low = \"Open the regulator.\"`

Right: `min = \"20 psi\"`, `max = \"30 psi\"` with the same line
",
};

/// A reading without a kind, or with two.
pub static KIND_UNCLEAR: Code = Code {
    name: "kind-unclear",
    summary: "a reading does not say which sort of answer it expects",
    teaching: "\
A reading has exactly one of `unit` (a number that is measured), `choices` (one of several words) and `kind`
(`\"count\"`, `\"text\"`, `\"date\"`, `\"list\"`, `\"file\"`).

Wrong: `fluid_look = \"look of the fluid\"`

Right: `[readings.fluid_look]` with `what = \"look of the fluid\"` and `choices = [\"red\", \"brown\"]`
",
};

/// Two criteria at once.
pub static LIMITS_CONFLICT: Code = Code {
    name: "limits-conflict",
    summary: "two limits say different things about the same reading",
    teaching: "\
A reading has at most one lower limit (`min` or `above`) and one upper (`max` or `below`), or a `target` with
`within`, or a `nominal`, or none and says `information_only = true`.

Wrong: `min = \"3 in\"` and `above = \"2 in\"`

Right: `min = \"3 in\"`
",
};

/// A limit for something that cannot be limited so.
pub static LIMITS_MISPLACED: Code = Code {
    name: "limits-misplaced",
    summary: "a key does not fit this kind of reading",
    teaching: "\
A number has limits, a choice has `accept`, a date has `min` and `max` dates, a text is only written down.

Wrong: `choices = [\"clear\", \"cloudy\"]` with `max = 5`

Right: `choices = [\"clear\", \"cloudy\"]` with `accept = [\"clear\"]`
",
};

/// No criterion.
pub static LIMITS_MISSING: Code = Code {
    name: "limits-missing",
    summary: "a reading has no acceptance criterion and does not say that it needs none",
    teaching: "\
Whoever takes a reading must know whether it is good. Where the source gives no limit, the file says so in words;
never invent one.

Wrong: `[readings.supply]` with only `what` and `unit`

Right: the same with `max = \"60 psi\"`, or with `information_only = true`
",
};

/// Limits that nothing can meet.
pub static LIMITS_REVERSED: Code = Code {
    name: "limits-reversed",
    summary: "the lower limit lies above the upper one",
    teaching: "\
Nothing can be above the upper limit and below the lower one at once: every reading would fail.

Wrong: `min = \"93 °C\"` and `max = \"80 °C\"`

Right: `min = \"80 °C\"` and `max = \"93 °C\"`
",
};

/// A list that may have been forgotten.
pub static NONE_NOT_SAID: Code = Code {
    name: "none-not-said",
    summary: "tools, materials, parts, hazards, `required` or `close_up` are neither given nor declared none",
    teaching: "\
An empty list can mean that nothing is needed or that it was forgotten. The file says which: of what is laid out
(`tools`, `materials`, `parts`), of the hazards, and of what must be true before the job (`required`) and after it
(`close_up`).

Wrong: no `[parts]` and nothing about it

Right: `parts = \"none\"` above the first table

Wrong: nothing about what must be true when the job is over

Right: `close_up = [\"the drain plug is tight\"]`, or `close_up = \"none\"`
",
};

/// Before and after at once.
pub static OCCASION_UNCLEAR: Code = Code {
    name: "occasion-unclear",
    summary: "one reading is both as found and as left",
    teaching: "\
What was found before an adjustment and what is left after it are two readings: the record shows both, side by
side.

Wrong: `as_found = true` and `as_left = \"idle_before\"` in one reading

Right: `[readings.idle_before]` with `as_found = true`, `[readings.idle]` with `as_left = \"idle_before\"`
",
};

/// A repeat that does not say how often.
pub static PASSES_UNCLEAR: Code = Code {
    name: "passes-unclear",
    summary: "a repeat or a list does not say clearly what it goes through",
    teaching: "\
A repeat goes over a list (`each`), a number of times (`times`), or until something holds (`until`); one of them.
Each item of a list has a name of its own.

Wrong: `[repeats.studs]` with only `what`, or `each = [\"left\", \"left\"]`

Right: `each = [\"left\", \"right\"]`, or `times = 'stud_count'`, or `until = 'drop < 100 rpm'`
",
};

/// An impossible range.
pub static PLAUSIBLE_WRONG: Code = Code {
    name: "plausible-wrong",
    summary: "a plausible range is not a range of the reading",
    teaching: "\
`plausible` catches slips of the finger: a number outside it is asked for again. It has two ends, the lowest first,
of the kind that the unit measures. It is no limit.

Wrong: `plausible = [\"200 psi\", \"0 psi\"]`

Right: `plausible = [\"0 psi\", \"200 psi\"]`
",
};

/// A second reading that cannot be compared.
pub static SECOND_UNCLEAR: Code = Code {
    name: "second-unclear",
    summary: "a second reading does not say when it agrees with the first",
    teaching: "\
Two people never read quite the same quantity: `agree` says how far apart two readings may be. It is a difference
of what is read, in its unit. A choice, a count, a text is the same or it is not, and takes no `agree`.

Wrong: `unit = \"N·m\"` and `second = \"helper\"` alone

Right: the same with `agree = \"2 N·m\"`
",
};

/// An impossible range of an instrument.
pub static RANGE_WRONG: Code = Code {
    name: "range-wrong",
    summary: "the range of an instrument is not a range",
    teaching: "\
A range has two ends, the least first: between them the instrument reads what it promises. A reading outside it
fails, whatever the dial says.

Wrong: `range = [\"200 N·m\", \"20 N·m\"]`

Right: `range = [\"20 N·m\", \"200 N·m\"]`
",
};

/// Half a target.
pub static TARGET_WITHOUT_WITHIN: Code = Code {
    name: "target-without-within",
    summary: "`target` and `within` belong together",
    teaching: "\
Nothing is ever exactly on its target. `within` says how far from it is still good, as a quantity or as a part of
the target. Where the source gives no tolerance, use `nominal`: it is shown and the person judges.

Wrong: `target = \"40 N·m\"` alone

Right: `target = \"40 N·m\"` with `within = \"4 %\"`
",
};

/// A log without a sensible schedule.
pub static LOG_UNCLEAR: Code = Code {
    name: "log-unclear",
    summary: "the times of a log do not fit together",
    teaching: "\
A repeat with `every` is a log: the first row sets the schedule, each further row is due so much later. `late`
says by how much a row may come after that, `0 min` that it must come at that moment; so it needs `every`, and is
less than it. `every` is more than zero and at most a year.

Wrong: `late = \"1 min\"` alone; `every = \"5 min\"` with `late = \"10 min\"`

Right: `every = \"5 min\"` with `late = \"1 min\"`
",
};

/// A stopwatch for something else than a time.
pub static STOPWATCH_NOT_TIME: Code = Code {
    name: "stopwatch-not-time",
    summary: "a stopwatch is asked to take something that is no time",
    teaching: "\
With `stopwatch = true` a key starts a clock and any key stops it; what is entered is the time between. So the
reading has a unit of time.

Wrong: `unit = \"L\"` with `stopwatch = true`

Right: `unit = \"s\"` with `stopwatch = true`; the amount is a reading of its own
",
};

/// A wait for nothing.
pub static WAIT_WITHOUT_TIME: Code = Code {
    name: "wait-without-time",
    summary: "a wait has neither a shortest nor a longest time",
    teaching: "\
`at_least` is how long must pass before the later step, `at_most` how long may pass. One of them is needed.

Wrong: `drying = \"the paint dries\"`

Right: `[waits.drying]` with `what = \"the paint dries\"` and `at_least = \"30 min\"`
",
};

/// A word outside a closed list.
pub static WORD_UNKNOWN: Code = Code {
    name: "word-unknown",
    summary: "a word is not one of those that can stand here",
    teaching: "\
Some keys take one of a few words: a signal word, a level of use, a kind of reading, a reason to lapse. They are
written as the message lists them.

Wrong: `signal = \"Warning!\"`

Right: `signal = \"WARNING\"`
",
};

/// Says that a word is not one of `known`.
pub(super) fn word_unknown(what: &str, word: &Spanned<String>, known: &[&str]) -> Diagnostic {
    let diagnostic = Diagnostic::error(&WORD_UNKNOWN, format!("`{}` is not a {what}", word.value));
    let list: Vec<_> = known.iter().map(|word| format!("\"{word}\"")).collect();
    let diagnostic = diagnostic.at(word.span, format!("not a {what}"));
    match suggest::nearest(&word.value, known.iter().copied()) {
        Some(near) => {
            diagnostic.help(format!("did you mean \"{near}\"?")).replace(word.span, format!("\"{near}\""))
        }
        None => diagnostic.help(format!("write one of {}", list.join(", "))),
    }
}
