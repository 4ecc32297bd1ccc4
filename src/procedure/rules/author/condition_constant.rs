//! Conditions that are always or never true, and steps that no choice of answers leads to.

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};

use crate::formula::{Value, World};
use crate::procedure::check::{Decided, Draft};
use crate::procedure::{Name, Step, StepId, Table};
use crate::source::{Code, Diagnostic};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&CONDITION_CONSTANT, &STEP_UNREACHABLE];

/// A condition that decides nothing.
pub static CONDITION_CONSTANT: Code = Code {
    name: "condition-constant",
    summary: "a condition is true whatever is read, or never",
    teaching: "\
The steps under a condition that never holds are never reached; those under one that always holds need none. Found
where a condition speaks of choices or of nothing that is read.

Wrong: `if = 'look == \"dark\" and look == \"milky\"'`

Right: `if = 'look == \"dark\" or look == \"milky\"'`
",
};

/// A step behind two conditions that exclude each other.
pub static STEP_UNREACHABLE: Code = Code {
    name: "step-unreachable",
    summary: "a step can never be reached: its conditions exclude each other",
    teaching: "\
A step is done only when all conditions that it stands under hold: its own, those of the step it is a part of,
those of the heading. Each of them can hold here, but not all at once.

Wrong: `[dark]` on a step of the section `## Clear oil [clear]`

Right: the step moved to the section that it belongs to
",
};

/// The most combinations of choices that are gone through.
const MOST: usize = 1024;

/// The most names that a condition is followed over.
const DEEPEST: usize = 64;

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let conditions = draft.declarations.conditions.iter().map(|entry| &entry.name.value);
    let constant: BTreeMap<&Name, Diagnostic> =
        conditions.filter_map(|name| Some((name, constant(draft, name)?))).collect();
    let over: Vec<Vec<&Name>> = draft.steps.iter().map(|step| over(draft, step)).collect();
    let is_new = |set: &&[&Name]| !set.iter().any(|name| constant.contains_key(name));
    let sets: BTreeSet<&[&Name]> = over.iter().map(Vec::as_slice).filter(is_new).collect();
    let never: BTreeSet<&[&Name]> = sets.into_iter().filter(|set| never(draft, set)).collect();
    let is_dead = |step: StepId| over.get(step.0).is_some_and(|set| never.contains(set.as_slice()));
    let dead = draft.steps.iter().filter(|step| is_dead(step.id) && !step.parent.is_some_and(is_dead));
    let unreachable: Vec<_> = dead.map(|step| unreachable(draft, step)).collect();
    constant.into_values().chain(unreachable).collect()
}

/// The conditions that a step stands under, sorted.
fn over<'s>(draft: &'s Draft<'_>, step: &'s Step) -> Vec<&'s Name> {
    let mut over = draft.conditions_over(step);
    over.sort_unstable();
    over.dedup();
    over
}

fn constant(draft: &Draft<'_>, name: &Name) -> Option<Diagnostic> {
    let (headline, label) = match decided(draft, name) {
        Decided::Always => (format!("the condition `{name}` always holds"), "true whatever is read"),
        Decided::Never => (format!("the condition `{name}` never holds"), "false whatever is read"),
        Decided::Either | Decided::Open => return None,
    };
    let formula = draft.formulas.truths.get(name)?;
    let diagnostic = Diagnostic::warning(&CONDITION_CONSTANT, headline).at(formula.span(), label);
    Some(diagnostic.help("mend it, or take it out together with what can never be reached"))
}

/// Whether some of these conditions exclude each other.
pub(super) fn never<'d>(draft: &'d Draft<'d>, over: &[&'d Name]) -> bool {
    if over.len() < 2 {
        return false;
    }
    let decided: Vec<&Name> =
        over.iter().copied().filter(|name| decided(draft, name) != Decided::Open).collect();
    decided.len() > 1
        && outcomes(draft, &decided).is_some_and(|mut found| found.all(|holds| holds == Some(false)))
}

/// What a condition comes to by itself.
fn decided<'d>(draft: &'d Draft<'d>, name: &'d Name) -> Decided {
    if let Some(known) = draft.decided.borrow().get(name) {
        return *known;
    }
    let decided = outcomes(draft, &[name]).map_or(Decided::Open, in_common);
    draft.decided.borrow_mut().insert(name.clone(), decided);
    decided
}

/// What all outcomes have in common; where two differ, no further one is worked out.
fn in_common(outcomes: impl Iterator<Item = Option<bool>>) -> Decided {
    let mut common = None;
    for holds in outcomes {
        match holds {
            None => return Decided::Open,
            Some(holds) if *common.get_or_insert(holds) != holds => return Decided::Either,
            Some(_) => {}
        }
    }
    if common == Some(false) { Decided::Never } else { Decided::Always }
}

fn unreachable(draft: &Draft<'_>, step: &Step) -> Diagnostic {
    let headline = format!("step {} can never be reached", step.number);
    let names: Vec<_> = draft.conditions_over(step).iter().map(|name| format!("`{name}`")).collect();
    let label = format!("{} exclude each other", names.join(" and "));
    let place = step.conditions.first().and_then(|name| draft.mention_in(step.id, name));
    let diagnostic = Diagnostic::warning(&STEP_UNREACHABLE, headline).at(place.unwrap_or(step.span), label);
    diagnostic.help("name the condition that is meant, or move the step")
}

/// Whether all these conditions hold, one by one over all answers to what they speak of; nothing where that is not decided
/// by choices alone.
fn outcomes<'d>(draft: &'d Draft<'d>, conditions: &[&'d Name]) -> Option<impl Iterator<Item = Option<bool>>> {
    let choices = choices(draft, conditions)?;
    let all: usize = choices.iter().try_fold(1_usize, |all, (_, words)| all.checked_mul(words.len()))?;
    if all > MOST {
        return None;
    }
    Some((0..all).map(move |number| Answers::numbered(draft, &choices, number).hold(conditions)))
}

/// What can be asked, and the words that can be answered to it.
type Choices<'d> = Vec<(&'d Name, &'d [String])>;

/// What can be answered to everything that these conditions speak of.
fn choices<'d>(draft: &'d Draft<'d>, conditions: &[&'d Name]) -> Option<Choices<'d>> {
    let mut open: Vec<&Name> = conditions.to_vec();
    let (mut seen, mut found) = (BTreeSet::new(), Vec::new());
    while let Some(name) = open.pop() {
        if !seen.insert(name) {
            continue;
        }
        if seen.len() > DEEPEST {
            return None;
        }
        if draft.is(name, Table::Conditions) {
            draft.formulas.truths.get(name)?;
            open.extend(draft.inputs().get(name)?.iter().map(|input| &input.value));
            continue;
        }
        let words = draft.names.words_of(name.as_str());
        if words.is_empty() {
            return None;
        }
        found.push((name, words));
    }
    Some(found)
}

/// One way to answer.
struct Answers<'d> {
    draft: &'d Draft<'d>,
    choices: &'d [(&'d Name, &'d [String])],
    /// Which of all ways it is: the first choice turns fastest.
    number: usize,
    /// Conditions that have been worked out.
    known: RefCell<Vec<(&'d Name, Value)>>,
    /// Whether a formula asked for more passes than this one: then nothing is decided.
    passes_asked: Cell<bool>,
}

impl<'d> Answers<'d> {
    fn numbered(draft: &'d Draft<'d>, choices: &'d [(&'d Name, &'d [String])], number: usize) -> Self {
        Self { draft, choices, number, known: RefCell::default(), passes_asked: Cell::new(false) }
    }

    fn given(&self, asked: &str) -> Option<&'d String> {
        let mut left = self.number;
        for (name, words) in self.choices {
            if name.as_str() == asked {
                return words.get(left % words.len().max(1));
            }
            left /= words.len().max(1);
        }
        None
    }

    fn hold(&self, conditions: &[&Name]) -> Option<bool> {
        let mut all = true;
        for name in conditions {
            let Some(Value::Truth(holds)) = self.value_of(name.as_str()) else { return None };
            all &= holds;
        }
        (!self.passes_asked.get()).then_some(all)
    }
}

impl World for Answers<'_> {
    fn value_of(&self, name: &str) -> Option<Value> {
        if let Some(word) = self.given(name) {
            return Some(Value::Text(word.clone()));
        }
        if let Some((_, known)) = self.known.borrow().iter().find(|(known, _)| known.as_str() == name) {
            return Some(known.clone());
        }
        let (name, formula) = self.draft.formulas.truths.get_key_value(name)?;
        let value = formula.evaluate(self).ok()?;
        self.known.borrow_mut().push((name, value.clone()));
        Some(value)
    }

    fn passes_of(&self, _name: &str, _most: usize) -> Vec<Value> {
        self.passes_asked.set(true);
        Vec::new()
    }
}
