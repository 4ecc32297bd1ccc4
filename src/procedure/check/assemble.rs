use std::collections::{BTreeMap, BTreeSet};

use super::draft::Draft;
use super::flow::Flow;
use super::formulas::{Formulas, prove};
use super::headings::{Levels, section, title};
use super::names::Names;
use super::resolve;
use super::steps::{Placer, show_numbers};
use crate::procedure::document::Outline;
use crate::procedure::rules;
use crate::procedure::written::{Declarations, Entry, WrittenGround, WrittenRuleOff, WrittenSupply};
use crate::procedure::{
    Alternatives, CheckedProcedure, Condition, Ground, Name, Named, NamedStep, Place, RuleOff, Step,
    StoppingPoint, Supply,
};
use crate::source::{Diagnostic, Found, Severity, SourceText};

/// Checks what was written; the procedure comes out only when nothing is wrong with it.
pub fn check(
    declarations: &Declarations,
    outline: &Outline,
    text: &SourceText,
    id: &str,
) -> Found<Option<CheckedProcedure>> {
    let names = Names::of(declarations);
    let (formulas, mut diagnostics) = prove(declarations, &names);
    diagnostics.extend(resolve::problems(declarations, &names));
    let mut placer = Placer::new(&names, held(declarations));
    placer.place(outline);
    let levels = Levels::of(declarations);
    let draft = Draft {
        declarations,
        outline,
        names: &names,
        formulas: &formulas,
        sections: outline.parts.iter().map(|part| section(part, &names, &levels)).collect(),
        steps: placer.steps,
        mentions: placer.mentions,
    };
    diagnostics.extend(rules::judge(&draft));
    if !broken(&diagnostics) {
        diagnostics.extend(rules::advice(&draft));
    }
    let value = if broken(&diagnostics) { None } else { assemble(draft, text, id) };
    Found { value, diagnostics }
}

fn broken(diagnostics: &[Diagnostic]) -> bool {
    diagnostics.iter().any(|diagnostic| diagnostic.severity == Severity::Error)
}

fn held(declarations: &Declarations) -> BTreeSet<Name> {
    let holds = declarations.holds.iter().filter_map(|entry| entry.thing.as_ref());
    holds.flat_map(|hold| &hold.readings).map(|name| Name(name.value.clone())).collect()
}

fn assemble(draft: Draft<'_>, text: &SourceText, id: &str) -> Option<CheckedProcedure> {
    let Draft { declarations, outline, names, formulas, sections, steps, .. } = draft;
    let flow = Flow { declarations, formulas };
    Some(CheckedProcedure {
        id: id.to_owned(),
        title: title(outline.title.as_ref()?, names),
        text: text.clone(),
        linked: Vec::new(),
        places: places(declarations),
        header: declarations.header.clone()?,
        roles: resolve::roles(declarations),
        tools: whole(&declarations.tools),
        materials: supplies(&declarations.materials, formulas),
        parts: supplies(&declarations.parts, formulas),
        vehicle: whole(&declarations.vehicle),
        hazards: whole(&declarations.hazards),
        holds: resolve::holds(declarations),
        readings: resolve::readings(declarations, formulas),
        values: resolve::values(declarations, formulas),
        conditions: conditions(declarations, formulas),
        waits: whole(&declarations.waits),
        repeats: flow.repeats(),
        alternatives: only_what(&declarations.alternatives, |what| Alternatives { what }),
        fasteners: flow.fasteners(),
        checks: resolve::checks(declarations),
        witnesses: resolve::witnesses(declarations),
        critical: flow.critical(),
        watches: flow.watches(),
        stopping_points: only_what(&declarations.stopping_points, |what| StoppingPoint { what }),
        named_steps: named_steps(declarations, &steps),
        rules_off: rules_off(declarations),
        introduction: outline.introduction.clone(),
        sections,
        steps,
        index: std::sync::OnceLock::new(),
    })
}

fn places(declarations: &Declarations) -> BTreeMap<Name, Place> {
    let names = declarations.names().into_iter();
    names.map(|(name, _)| (name.value.clone(), Place { source: 0, span: name.span })).collect()
}

fn rules_off(declarations: &Declarations) -> Vec<RuleOff> {
    let rules = declarations.rules_off.iter();
    let rule =
        |rule: &WrittenRuleOff| Some(RuleOff { code: rule.code.value.clone(), reason: rule.reason.clone()? });
    rules.filter_map(rule).collect()
}

fn named_steps(declarations: &Declarations, steps: &[Step]) -> Named<NamedStep> {
    let mut named = only_what(&declarations.steps, |what| NamedStep { what, shown: String::new() });
    show_numbers(&mut named, steps);
    named
}

fn only_what<T>(entries: &[Entry<String>], make: fn(String) -> T) -> Named<T> {
    entries.iter().filter_map(|entry| Some((entry.name.value.clone(), make(entry.thing.clone()?)))).collect()
}

fn whole<T: Clone>(entries: &[Entry<T>]) -> Named<T> {
    entries.iter().filter_map(|entry| Some((entry.name.value.clone(), entry.thing.clone()?))).collect()
}

fn supplies(entries: &[Entry<WrittenSupply>], formulas: &Formulas) -> Named<Supply> {
    let supply = |entry: &Entry<WrittenSupply>| {
        let supply = Supply {
            what: entry.thing.as_ref()?.what.clone(),
            amount: formulas.amounts.get(&entry.name.value).cloned(),
        };
        Some((entry.name.value.clone(), supply))
    };
    entries.iter().filter_map(supply).collect()
}

fn conditions(declarations: &Declarations, formulas: &Formulas) -> Named<Condition> {
    let mut conditions = Named::default();
    for entry in &declarations.conditions {
        let Some(written) = &entry.thing else {
            continue;
        };
        let name = &entry.name.value;
        let ground = match &written.ground {
            WrittenGround::If(_) => formulas.truths.get(name).cloned().map(Ground::If),
            WrittenGround::Missed(wait) => Some(Ground::Missed(Name(wait.value.clone()))),
            WrittenGround::GaveUp(repeat) => Some(Ground::GaveUp(Name(repeat.value.clone()))),
            WrittenGround::Failed(result) => Some(Ground::Failed(Name(result.value.clone()))),
        };
        if let Some(ground) = ground {
            conditions.add(name.clone(), Condition { ground, why: written.why.clone() });
        }
    }
    conditions
}
