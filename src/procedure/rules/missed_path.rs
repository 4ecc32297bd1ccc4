//! The path for a missed wait: the wait can be missed, and the path comes after the step that misses it.

use crate::procedure::check::Draft;
use crate::procedure::written::{WrittenCondition, WrittenGround};
use crate::procedure::{Name, Step};
use crate::source::{Code, Diagnostic, Spanned};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&MISSED_NEVER, &MISSED_TOO_EARLY];

/// A wait that nobody can miss.
pub static MISSED_NEVER: Code = Code {
    name: "missed-never",
    summary: "a condition rests on missing a wait that cannot be missed",
    teaching: "\
A wait is missed when a step that needs it comes later than its longest time. Without `at_most` it has none, and
without a step that needs it nothing can come too late.

Wrong: `set = { missed = \"glue\" }` where `[waits.glue]` has only `at_least`

Right: `[waits.glue]` with `at_most = \"10 min\"`
",
};

/// A path that may come before it is known whether it is needed.
pub static MISSED_TOO_EARLY: Code = Code {
    name: "missed-too-early",
    summary: "the path for a missed wait may come before the step that misses it",
    teaching: "\
Whether a wait was missed is known when each step that needs it is done or came too late. The steps for that
case stand after all of them, and are no part of them: a step that came too late is not applicable, with all its
parts.

Wrong: `1. [set] Scrape the glue off.` before `2. When [glue] is over, press the parts together.`

Right: the same two steps the other way round
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let conditions = draft.declarations.conditions.iter();
    let conditions = conditions.filter_map(|entry| Some((&entry.name, entry.thing.as_deref()?)));
    conditions.flat_map(|(name, condition)| of_one(draft, name, condition)).collect()
}

fn of_one(draft: &Draft<'_>, name: &Spanned<Name>, condition: &WrittenCondition) -> Vec<Diagnostic> {
    let WrittenGround::Missed(wait) = &condition.ground else {
        return Vec::new();
    };
    let Some(declared) = draft.declarations.waits.thing(&wait.value) else {
        return Vec::new();
    };
    if declared.at_most.is_none() {
        return vec![never(wait)];
    }
    let wait = Name::from(&wait.value);
    let needing: Vec<&Step> = draft.steps_with(&wait).filter(|step| step.needs.contains(&wait)).collect();
    let mut guarded = draft.steps.iter().filter(|step| is_guarded(draft, step, &name.value));
    let early = guarded.find_map(|step| {
        let late = needing.iter().find(|needy| !comes_after(draft, needy, step))?;
        Some(too_early(draft, &name.value, step, late))
    });
    early.into_iter().collect()
}

/// Whether the condition stands at the step or at its section's heading.
fn is_guarded(draft: &Draft<'_>, step: &Step, condition: &Name) -> bool {
    let section = draft.sections.get(step.section.0);
    step.conditions.contains(condition)
        || section.is_some_and(|section| section.conditions.contains(condition))
}

fn comes_after(draft: &Draft<'_>, needy: &Step, step: &Step) -> bool {
    let mut outer = step.parent;
    while let Some(id) = outer {
        if id == needy.id {
            return false;
        }
        outer = draft.step(id).and_then(|step| step.parent);
    }
    draft.surely_before(needy, step)
}

fn never(wait: &Spanned<String>) -> Diagnostic {
    let headline = format!("the wait `{}` cannot be missed", wait.value);
    let diagnostic = Diagnostic::error(&MISSED_NEVER, headline).at(wait.span, "it has no longest time");
    diagnostic.help("give the wait `at_most = \"...\"`")
}

fn too_early(draft: &Draft<'_>, condition: &Name, step: &Step, needy: &Step) -> Diagnostic {
    let headline = format!("step {} may come before it is known whether `{condition}` holds", step.number);
    let place = draft.mention_in(step.id, condition).unwrap_or(step.span);
    let diagnostic = Diagnostic::error(&MISSED_TOO_EARLY, headline).at(place, "needed here");
    let diagnostic = diagnostic.also(needy.span, "known when this step is done or came too late");
    diagnostic.help(format!("put it after step {}, in a numbered list or a later section", needy.number))
}
