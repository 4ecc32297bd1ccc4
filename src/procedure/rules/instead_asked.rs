//! How often something is done, and what is typed before it, must have a number whatever comes out.

use std::cell::Cell;

use crate::formula::{EvalProblem, Typed, Value, World};
use crate::procedure::Name;
use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic};

/// A number that the work cannot do without, and that may be none.
pub static INSTEAD_NOT_ASKED: Code = Code {
    name: "instead-not-asked",
    summary: "the work needs a number, and a reading behind it can come out without one",
    teaching: "\
A result without a number is a deviation, and the work goes on. Where a number says how often something is done,
how many fasteners there are, or what is typed before a critical act, the work would stop. So the formula asks for
the outcome first, or a condition leaves the steps out.

Wrong: `times = 'studs'` where `[readings.studs]` has `instead = { \"lost count\" = \"fail\" }`

Right: `[conditions.counted]` with `if = 'studs != \"lost count\"'` on the step that is repeated
",
};

/// The keys of the formulas that the work cannot do without.
const NEEDED: [&str; 4] = ["times", "at_most", "count", "value"];

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let needed = draft.formulas.flow.iter().filter(|((_, key), _)| NEEDED.contains(&key.as_str()));
    needed.filter_map(|((owner, key), formula)| unasked(draft, (owner, key), formula)).collect()
}

fn unasked(draft: &Draft<'_>, (owner, key): (&Name, &str), formula: &Typed) -> Option<Diagnostic> {
    let mut outcomes = draft.declarations.readings.iter().flat_map(|entry| {
        let outcomes = entry.thing.iter().flat_map(|reading| &reading.instead);
        outcomes.map(|outcome| (&entry.name, outcome.words.as_str()))
    });
    let (reading, words) = outcomes.find(|(reading, words)| {
        let came_out = CameOut { draft, reading: &reading.value, words, depth: Cell::new(0) };
        matches!(formula.evaluate(&came_out), Err(EvalProblem::NoNumber { .. })) && came_out.is_reached(owner)
    })?;
    let headline = format!("`{key}` of `{owner}` may have no number");
    let diagnostic = Diagnostic::error(&INSTEAD_NOT_ASKED, headline)
        .at(formula.span(), format!("without a number if `{}` is \"{words}\"", reading.value))
        .also(reading.span, "declared here");
    let help =
        format!("ask for it first: `if {} == \"{words}\" then ...`, or leave the steps out", reading.value);
    Some(diagnostic.help(help))
}

/// What is known once one reading has come out so, and nothing else.
struct CameOut<'d> {
    draft: &'d Draft<'d>,
    reading: &'d Name,
    words: &'d str,
    depth: Cell<usize>,
}

impl CameOut<'_> {
    /// The most names that a formula is followed over.
    const DEEPEST: usize = 64;

    /// Whether the steps that something belongs to are done then: no condition over them leaves them out.
    fn is_reached(&self, owner: &Name) -> bool {
        let sections = self.draft.repeated(owner).iter().filter_map(|id| self.draft.sections.get(id.0));
        let of_sections = sections.flat_map(|section| &section.conditions);
        let steps = self.draft.steps_with(owner).filter(|step| {
            step.repeat.as_ref() == Some(owner)
                || step.fasteners.contains(owner)
                || step.critical.contains(owner)
                || step.dues.contains(owner)
        });
        let of_steps = steps.flat_map(|step| self.draft.conditions_over(step));
        let is_false = |name: &Name| self.value_of(name.as_str()) == Some(Value::Truth(false));
        !of_sections.chain(of_steps).any(is_false)
    }
}

impl World for CameOut<'_> {
    fn value_of(&self, name: &str) -> Option<Value> {
        let name = Name::from(name);
        if name == *self.reading {
            return Some(Value::Instead(self.words.to_owned()));
        }
        let formulas = self.draft.formulas;
        let formula = formulas.formula_of(&name).filter(|_| self.depth.get() < Self::DEEPEST)?;
        self.depth.set(self.depth.get() + 1);
        let found = formula.evaluate(self);
        self.depth.set(self.depth.get() - 1);
        match found {
            Ok(value) => Some(value),
            Err(EvalProblem::NoNumber { words, .. }) => Some(Value::Instead(words)),
            Err(_) => None,
        }
    }
}
