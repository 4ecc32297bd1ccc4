//! What a formula speaks of must be known when the formula is needed, whatever order the person chooses.

use std::collections::BTreeSet;

use crate::procedure::check::Draft;
use crate::procedure::{Name, Section, Step, Table};
use crate::source::{Code, Diagnostic, Span, Spanned};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&NEEDED_EARLY, &NEEDED_NEVER, &NEEDED_PERHAPS];

/// Needed before it is taken.
pub static NEEDED_EARLY: Code = Code {
    name: "needed-early",
    summary: "a reading or a value is needed before it is surely known",
    teaching: "\
A limit, a computed value or a condition is worked out when its step begins. What it speaks of must have been read
or computed in an earlier step; in a bullet list nothing is earlier than its neighbours. In one step the readings
come first, in the order of the text, then the values, in the order of the text; a step comes before its parts.

Wrong: step 1.1 names `[flow]`, computed as `caught / took`, and step 1.2 names `[caught]` and `[took]`

Right: `[caught]` and `[took]` first
",
};

/// Needed and never taken.
pub static NEEDED_NEVER: Code = Code {
    name: "needed-never",
    summary: "a reading or a value is needed and no step takes it",
    teaching: "\
A formula speaks of a reading that no step takes, or of a value that no step computes. A mention in a paragraph, a
note or a heading takes nothing: only steps do.

Wrong: `max = '0.6 * supply'` where no step names `[supply]`

Right: a step `Read the supply pressure: [supply].` before it
",
};

/// Needed and perhaps skipped.
pub static NEEDED_PERHAPS: Code = Code {
    name: "needed-perhaps",
    summary: "a reading or a value is needed in a step that may come without it",
    teaching: "\
The step that takes the reading stands under a condition, the step that needs it does not. When the condition does
not hold, the formula has nothing to work with.

Wrong: `[warm] Read [pan_temp].`, and later, without a condition, a limit that uses `pan_temp`

Right: both under `[warm]`, or both without it; or the formula asks first: `if warm then pan_temp else 20 °C`,
`not warm or pan_temp < 40 °C`
",
};

/// A formula that is needed at a step.
struct Need<'s> {
    step: &'s Step,
    /// The reading, value or condition whose formula it is.
    whose: &'s Name,
    /// What of the same step is known by then.
    known: &'s [&'s Name],
}

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for step in draft.steps {
        let taken = taken(draft, step);
        let mut told = BTreeSet::new();
        for need in needs(draft, step, &taken) {
            for input in inputs(draft, need.whose) {
                if told.insert(input.name()) {
                    found.extend(judge(draft, &need, &input));
                }
            }
        }
    }
    found
}

/// Every formula that is needed at a step, in the order in which it is.
fn needs<'s>(draft: &'s Draft<'_>, step: &'s Step, taken: &'s [&'s Name]) -> Vec<Need<'s>> {
    let before = conditions(draft, step).chain(&step.critical).chain(&step.watch_begins).chain(&step.repeat);
    let before = before.map(|whose| Need { step, whose, known: &[] });
    let within = taken.iter().enumerate().map(|(place, whose)| Need { step, whose, known: &taken[..place] });
    let after = step.fasteners.iter().chain(&step.dues).map(|whose| Need { step, whose, known: taken });
    before.chain(within).chain(after).collect()
}

/// The conditions that guard the step itself, and those of its section where it is the section's first.
fn conditions<'s>(draft: &'s Draft<'_>, step: &'s Step) -> impl Iterator<Item = &'s Name> {
    let is_first =
        |section: &&Section| section.groups.first().and_then(|group| group.steps.first()) == Some(&step.id);
    let heading = draft.sections.get(step.section.0).filter(is_first).into_iter();
    heading.flat_map(|section| section.conditions.iter().chain(&section.repeat)).chain(&step.conditions)
}

/// What the step takes and then computes, in order; a hold point takes its own readings.
fn taken<'s>(draft: &'s Draft<'_>, step: &'s Step) -> Vec<&'s Name> {
    draft.hold_readings(step).into_iter().chain(&step.takes).chain(&step.computes).collect()
}

/// What a formula speaks of.
struct Input<'s> {
    /// The reading, value or condition whose formula it is.
    of: &'s Name,
    /// Its place among all that the formula speaks of.
    place: usize,
    spoken: &'s Spanned<Name>,
}

impl<'s> Input<'s> {
    fn name(&self) -> &'s Name {
        &self.spoken.value
    }
}

/// What a formula and its limits speak of, in their order.
fn spoken<'s>(draft: &'s Draft<'_>, whose: &Name) -> impl Iterator<Item = &'s Spanned<Name>> {
    let own = draft.inputs().get(whose).into_iter().flatten();
    own.chain(draft.formulas.limit_inputs.get(whose).into_iter().flatten())
}

/// The same; conditions among it are followed to what they speak of.
fn inputs<'s>(draft: &'s Draft<'_>, whose: &'s Name) -> Vec<Input<'s>> {
    let mut inputs = Vec::new();
    let mut followed = BTreeSet::new();
    let mut open = vec![whose];
    while let Some(of) = open.pop() {
        for (place, spoken) in spoken(draft, of).enumerate() {
            if !draft.is(&spoken.value, Table::Conditions) {
                inputs.push(Input { of, place, spoken });
            } else if followed.insert(&spoken.value) {
                open.push(&spoken.value);
            }
        }
    }
    inputs
}

fn judge(draft: &Draft<'_>, need: &Need<'_>, input: &Input<'_>) -> Option<Diagnostic> {
    let name = input.name();
    let has_a_source =
        matches!(draft.names.table(name), Some(Table::Readings | Table::Values | Table::Fasteners));
    if !has_a_source || need.known.contains(&name) {
        return None;
    }
    let Some(source) = draft.source_of(name) else {
        return Some(never(draft, need, input.spoken));
    };
    if source.id == need.step.id || !draft.surely_before(source, need.step) {
        return Some(early(draft, need, input.spoken, source));
    }
    perhaps(draft, need, input, source)
}

fn place(draft: &Draft<'_>, need: &Need<'_>) -> Span {
    draft.mention_in(need.step.id, need.whose).unwrap_or(need.step.span)
}

fn verb(draft: &Draft<'_>, name: &Name) -> &'static str {
    match () {
        () if draft.is(name, Table::Values) => "computed",
        () if draft.is(name, Table::Fasteners) => "tightened",
        () => "taken",
    }
}

fn never(draft: &Draft<'_>, need: &Need<'_>, input: &Spanned<Name>) -> Diagnostic {
    let verb = verb(draft, &input.value);
    let headline = format!("`{}` is needed in step {} and never {verb}", input.value, need.step.number);
    let diagnostic =
        Diagnostic::error(&NEEDED_NEVER, headline).at(input.span, format!("no step names `{}`", input.value));
    let diagnostic = diagnostic.also(place(draft, need), format!("`{}` is needed here", need.whose));
    diagnostic.help(format!("write `[{}]` in an earlier step", input.value))
}

fn early(draft: &Draft<'_>, need: &Need<'_>, input: &Spanned<Name>, source: &Step) -> Diagnostic {
    let (name, verb) = (&input.value, verb(draft, &input.value));
    let headline = format!("`{name}` is needed in step {} before it is surely known", need.step.number);
    let label = format!("`{}` is worked out here", need.whose);
    let diagnostic = Diagnostic::error(&NEEDED_EARLY, headline).at(place(draft, need), label);
    let here = draft.mention_in(source.id, name).unwrap_or(source.span);
    let diagnostic = diagnostic.also(here, format!("`{name}` is {verb} here"));
    let diagnostic = diagnostic.also(input.span, "needed by this formula");
    if source.id < need.step.id {
        let note = "in a bullet list the steps are done in any order";
        return diagnostic.note(note).help("put the steps into a numbered list");
    }
    diagnostic.help(format!("name `[{name}]` in an earlier step"))
}

/// A formula that asks for the condition first decides by itself: `and`, `or` and `if` work out no more than they need,
/// from left to right.
fn perhaps(draft: &Draft<'_>, need: &Need<'_>, input: &Input<'_>, source: &Step) -> Option<Diagnostic> {
    let mut over = draft.conditions_over(need.step);
    over.push(need.whose);
    // What the same formula speaks of before it.
    over.extend(spoken(draft, input.of).take(input.place).map(|name| &name.value));
    let missing = draft.conditions_over(source).into_iter().find(|condition| !over.contains(condition))?;
    let name = input.name();
    let headline =
        format!("step {} may need `{name}` when it was not {}", need.step.number, verb(draft, name));
    let diagnostic = Diagnostic::warning(&NEEDED_PERHAPS, headline);
    let diagnostic =
        diagnostic.at(place(draft, need), format!("`{}` needs it whatever `{missing}` says", need.whose));
    let here = draft.mention_in(source.id, name).unwrap_or(source.span);
    let diagnostic = diagnostic.also(here, format!("only when `{missing}` holds"));
    Some(diagnostic.help(format!("put both under `[{missing}]`, or take `{name}` in any case")))
}
