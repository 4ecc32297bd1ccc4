//! The whole check: proofs, places of names and rules, and the procedure if nothing is wrong.

use std::cell::RefCell;
use std::collections::{BTreeMap, HashSet};

use super::draft::Draft;
use super::formulas::{Formulas, Prover};
use super::headings::{Levels, section, title};
use super::names::Names;
use super::places::Places;
use super::proved::Proved;
use super::resolve;
use super::steps::{Placer, show_numbers};
use crate::procedure::document::Outline;
use crate::procedure::tables::Tables;
use crate::procedure::written::WrittenRuleOff;
use crate::procedure::{CheckedProcedure, Declarations, Name, Place, RuleOff, Section, Step, rules};
use crate::source::{Diagnostic, Found, Severity, SourceText};

/// Checks what was written; the procedure comes out only when nothing is wrong with it.
pub fn check(
    declarations: &Declarations,
    outline: &mut Outline,
    text: &SourceText,
    id: &str,
) -> Found<Option<CheckedProcedure>> {
    let names = declarations.declared();
    let (formulas, mut diagnostics) = prove(declarations, &names);
    diagnostics.extend(resolve::problems(declarations, &names));
    let mut placer = Placer::new(&names, held(declarations));
    placer.place(outline);
    let outline = &*outline;
    let levels = Levels::of(declarations);
    let sections: Vec<Section> = outline.parts.iter().map(|part| section(part, &names, &levels)).collect();
    let Placer { steps, mentions, .. } = placer;
    let draft = Draft {
        declarations,
        outline,
        names: &names,
        formulas: &formulas,
        places: Places::of(declarations, &sections, &steps, &mentions),
        sections: &sections,
        steps: &steps,
        mentions: &mentions,
        decided: RefCell::default(),
    };
    diagnostics.extend(rules::judge(&draft));
    if broken(&diagnostics) {
        return Found { value: None, diagnostics };
    }
    diagnostics.extend(rules::advice(&draft));
    drop(draft);
    let proved = Proved { names: &names, formulas: &formulas };
    let value = assemble(declarations, outline, &proved, (sections, steps), (text, id));
    Found { value, diagnostics }
}

fn broken(diagnostics: &[Diagnostic]) -> bool {
    diagnostics.iter().any(|diagnostic| diagnostic.severity == Severity::Error)
}

fn held(declarations: &Declarations) -> HashSet<Name> {
    let holds = declarations.holds.iter().filter_map(|entry| entry.thing.as_deref());
    holds.flat_map(|hold| &hold.readings).map(|name| Name::from(&name.value)).collect()
}

fn assemble(
    declarations: &Declarations,
    outline: &Outline,
    proved: &Proved<'_>,
    (sections, steps): (Vec<Section>, Vec<Step>),
    (text, id): (&SourceText, &str),
) -> Option<CheckedProcedure> {
    let mut tables = Tables::of(declarations, proved);
    show_numbers(&mut tables.named_steps, &steps);
    Some(CheckedProcedure {
        id: id.to_owned(),
        title: title(outline.title.as_ref()?, proved.names),
        text: text.clone(),
        linked: Vec::new(),
        places: places(declarations),
        header: declarations.header.clone()?,
        tables,
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

/// Proves every formula.
fn prove(declarations: &Declarations, names: &Names) -> (Formulas, Vec<Diagnostic>) {
    let mut prover = Prover { names, formulas: Formulas::default(), diagnostics: Vec::new() };
    declarations.prove(&mut prover);
    (prover.formulas, prover.diagnostics)
}
