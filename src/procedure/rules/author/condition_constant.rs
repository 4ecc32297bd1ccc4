//! Conditions that are always or never true, and steps that no choice of answers leads to.

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};

use crate::formula::{Scope, Value, World};
use crate::procedure::check::{Decided, Draft};
use crate::procedure::{Name, Step, Table};
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
    let sets: BTreeSet<Vec<&Name>> = draft.steps.iter().map(|step| over(draft, step)).collect();
    let is_new = |set: &Vec<&Name>| !set.iter().any(|name| constant.contains_key(name));
    let never: BTreeSet<Vec<&Name>> =
        sets.into_iter().filter(|set| is_new(set) && never(draft, set)).collect();
    let is_dead = |step: &Step| never.contains(&over(draft, step));
    let parent = |step: &Step| step.parent.and_then(|parent| draft.step(parent));
    let dead = draft.steps.iter().filter(|step| is_dead(step) && !parent(step).is_some_and(is_dead));
    let unreachable: Vec<_> = dead.map(|step| unreachable(draft, step)).collect();
    constant.into_values().chain(unreachable).collect()
}

/// The conditions that a step stands under, sorted.
fn over<'s>(draft: &'s Draft<'_>, step: &'s Step) -> Vec<&'s Name> {
    let over: BTreeSet<&Name> = draft.conditions_over(step).into_iter().collect();
    over.into_iter().collect()
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
pub(super) fn never(draft: &Draft<'_>, over: &[&Name]) -> bool {
    if over.len() < 2 {
        return false;
    }
    let decided: Vec<&Name> =
        over.iter().copied().filter(|name| decided(draft, name) != Decided::Open).collect();
    decided.len() > 1
        && outcomes(draft, &decided).is_some_and(|mut found| found.all(|holds| holds == Some(false)))
}

/// What a condition comes to by itself.
fn decided(draft: &Draft<'_>, name: &Name) -> Decided {
    if let Some(known) = draft.decided.borrow().get(name) {
        return *known;
    }
    let found: Option<Vec<bool>> = outcomes(draft, &[name]).and_then(Iterator::collect);
    let decided = match found {
        None => Decided::Open,
        Some(found) if found.iter().all(|holds| *holds) => Decided::Always,
        Some(found) if found.iter().all(|holds| !holds) => Decided::Never,
        Some(_) => Decided::Either,
    };
    draft.decided.borrow_mut().insert(name.clone(), decided);
    decided
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
fn outcomes<'d>(draft: &'d Draft<'d>, conditions: &[&Name]) -> Option<impl Iterator<Item = Option<bool>>> {
    let choices = choices(draft, conditions)?;
    let all: usize = choices.values().try_fold(1_usize, |all, some| all.checked_mul(some.len()))?;
    if all > MOST {
        return None;
    }
    Some((0..all).map(move |number| Answers::numbered(draft, &choices, number).hold(conditions)))
}

/// What can be answered to everything that these conditions speak of.
fn choices(draft: &Draft<'_>, conditions: &[&Name]) -> Option<BTreeMap<Name, Vec<String>>> {
    let mut open: Vec<Name> = conditions.iter().map(|name| (*name).clone()).collect();
    let (mut seen, mut found) = (BTreeSet::new(), BTreeMap::new());
    while let Some(name) = open.pop() {
        if !seen.insert(name.clone()) {
            continue;
        }
        if seen.len() > DEEPEST {
            return None;
        }
        if draft.is(&name, Table::Conditions) {
            draft.formulas.truths.get(&name)?;
            open.extend(draft.inputs().get(&name)?.iter().map(|input| input.value.clone()));
            continue;
        }
        let choices = draft.names.choices(name.as_str());
        if choices.is_empty() {
            return None;
        }
        found.insert(name, choices);
    }
    Some(found)
}

/// One way to answer.
struct Answers<'d> {
    draft: &'d Draft<'d>,
    given: BTreeMap<&'d str, &'d str>,
    /// Conditions that have been worked out.
    known: RefCell<BTreeMap<String, Value>>,
    /// Whether a formula asked for more passes than this one: then nothing is decided.
    passes_asked: Cell<bool>,
}

impl<'d> Answers<'d> {
    fn numbered(draft: &'d Draft<'_>, choices: &'d BTreeMap<Name, Vec<String>>, number: usize) -> Self {
        let mut left = number;
        let mut given = BTreeMap::new();
        for (name, texts) in choices {
            let count = texts.len().max(1);
            given.extend(texts.get(left % count).map(|text| (name.as_str(), text.as_str())));
            left /= count;
        }
        Self { draft, given, known: RefCell::default(), passes_asked: Cell::new(false) }
    }

    fn hold(&self, conditions: &[&Name]) -> Option<bool> {
        let holds = |name: &&Name| match self.value_of(name.as_str()) {
            Some(Value::Truth(holds)) => Some(holds),
            _ => None,
        };
        let all: Option<Vec<bool>> = conditions.iter().map(holds).collect();
        all.filter(|_| !self.passes_asked.get()).map(|all| all.into_iter().all(|holds| holds))
    }
}

impl World for Answers<'_> {
    fn value_of(&self, name: &str) -> Option<Value> {
        if let Some(text) = self.given.get(name) {
            return Some(Value::Text((*text).to_owned()));
        }
        if let Some(known) = self.known.borrow().get(name) {
            return Some(known.clone());
        }
        let value = self.draft.formulas.truths.get(name)?.evaluate(self).ok()?;
        self.known.borrow_mut().insert(name.to_owned(), value.clone());
        Some(value)
    }

    fn passes_of(&self, _name: &str, _most: usize) -> Vec<Value> {
        self.passes_asked.set(true);
        Vec::new()
    }
}
