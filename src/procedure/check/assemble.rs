use std::collections::BTreeSet;

use super::draft::Draft;
use super::formulas::{Formulas, prove};
use super::headings::{section, title};
use super::names::Names;
use super::resolve;
use super::steps::Placer;
use crate::procedure::document::Outline;
use crate::procedure::rules;
use crate::procedure::written::{Declarations, Entry, WrittenSupply};
use crate::procedure::{CheckedProcedure, Condition, Name, Named, Supply};
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
    let draft = Draft {
        declarations,
        outline,
        names: &names,
        formulas: &formulas,
        sections: outline.parts.iter().map(|part| section(part, &names)).collect(),
        steps: placer.steps,
        mentions: placer.mentions,
    };
    diagnostics.extend(rules::judge(&draft));
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
    Some(CheckedProcedure {
        id: id.to_owned(),
        title: title(outline.title.as_ref()?, names),
        text: text.clone(),
        header: declarations.header.clone()?,
        roles: whole(&declarations.roles),
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
        introduction: outline.introduction.clone(),
        sections,
        steps,
    })
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
        if let (Some(written), Some(formula)) = (&entry.thing, formulas.truths.get(&entry.name.value)) {
            let condition = Condition { formula: formula.clone(), why: written.why.clone() };
            conditions.add(entry.name.value.clone(), condition);
        }
    }
    conditions
}
