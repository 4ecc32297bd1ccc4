//! What one procedure takes, gathered from a view of it: of every step before the job, after a rehearsal of those that were
//! walked.

use super::model::{First, Moment, Person, PlannedWait, ProcedureKit, SectionLevel, SupplyKit, ToolKit};
use super::sums::buy;
use crate::formula::{Typed, Value};
use crate::procedure::{CheckedProcedure, Name, Named, Piece, Step, Supply, Tool};
use crate::quantity::Quantity;
use crate::run::{self, LaidOut, Together, View};
use crate::source::first_words;

/// The most characters of a step in a list.
const LONGEST: usize = 60;

/// What a procedure takes.
pub fn procedure_kit(view: View<'_>) -> ProcedureKit {
    let procedure = &view.book.procedure;
    let usual = procedure.header().level_of_use;
    let others = procedure.sections().iter().filter(|section| section.level != usual);
    let linked = procedure.linked().iter().flat_map(|linked| {
        linked.header.required.iter().map(move |words| format!("{words} (for: {})", linked.title))
    });
    let level = |section: &crate::procedure::Section| SectionLevel {
        section: section.title.clone(),
        level_of_use: section.level.word(),
    };
    ProcedureKit {
        procedure: procedure.id().to_owned(),
        title: procedure.title().to_owned(),
        revision: procedure.header().revision.clone(),
        level_of_use: usual.word(),
        other_levels: others.map(level).collect(),
        persons: procedure
            .roles()
            .iter()
            .map(|(name, role)| Person { role: name.to_string(), what: role.what.clone() })
            .collect(),
        tools: once(view.tools().iter().map(tool)),
        materials: supplies(view, procedure.materials()),
        parts: supplies(view, procedure.parts()),
        together: view.together().into_iter().map(|moment| together(procedure, moment)).collect(),
        waits: view.planned_waits().iter().map(|planned| wait(view, planned)).collect(),
        required: procedure.required().iter().cloned().chain(linked).collect(),
    }
}

fn first<T>(laid_out: &LaidOut<'_, T>) -> First {
    let by = laid_out.by.iter().map(ToString::to_string).collect();
    First { step: laid_out.first.map(|step| step.number.clone()), by }
}

fn tool(laid_out: &LaidOut<'_, Tool>) -> ToolKit {
    let tool = laid_out.thing;
    ToolKit {
        name: laid_out.name.to_string(),
        what: tool.what.clone(),
        remark: good_for(tool),
        accuracy: tool.accuracy.as_ref().map(Quantity::plus_minus),
        range: tool.range.as_ref().map(|(low, high)| [low.to_string(), high.to_string()]),
        calibrated: tool.calibrated,
        first: first(laid_out),
    }
}

/// What a tool has to be good for: `good to ±0.02 L, reads 0 L to 2 L, calibrated`.
pub fn good_for(tool: &Tool) -> String {
    let accuracy = tool.accuracy.as_ref().map(|accuracy| format!("good to {}", accuracy.plus_minus()));
    let range = tool.range.as_ref().map(|(low, high)| format!("reads {low} to {high}"));
    let calibrated = tool.calibrated.then(|| "calibrated".to_owned());
    accuracy.into_iter().chain(range).chain(calibrated).collect::<Vec<_>>().join(", ")
}

/// What a linked procedure needs as well is laid out once, where it is needed first.
fn once(tools: impl Iterator<Item = ToolKit>) -> Vec<ToolKit> {
    let mut laid_out: Vec<ToolKit> = Vec::new();
    for tool in tools {
        let is_same = |other: &ToolKit| other.what == tool.what && other.remark == tool.remark;
        if !laid_out.iter().any(is_same) {
            laid_out.push(tool);
        }
    }
    laid_out
}

fn supplies(view: View<'_>, supplies: &Named<Supply>) -> Vec<SupplyKit> {
    let one = |laid_out: LaidOut<'_, Supply>| {
        let supply = laid_out.thing;
        let worked_out = |formula: &Option<Typed>| amount(view, formula.as_ref()?);
        let known = worked_out(&supply.amount);
        let bought = buy(
            known.as_ref(),
            (worked_out(&supply.pack), worked_out(&supply.price)),
            supply.lead_time.clone(),
        );
        SupplyKit {
            name: laid_out.name.to_string(),
            what: supply.what.clone(),
            amount: known,
            formula: supply.amount.as_ref().map(|formula| view.book.procedure.worded(formula)),
            buy: bought,
            first: first(&laid_out),
        }
    };
    view.supplies(supplies).into_iter().map(one).collect()
}

/// What a formula comes to, where it is known before the job.
fn amount(view: View<'_>, formula: &Typed) -> Option<Quantity> {
    match formula.evaluate(&view.known()).ok()? {
        Value::Quantity(quantity) => Some(quantity),
        Value::Truth(_) | Value::Text(_) | Value::Instead(_) => None,
    }
}

fn together(procedure: &CheckedProcedure, moment: Together<'_>) -> Moment {
    Moment {
        step: moment.step.number.clone(),
        what: in_short(procedure, moment.step),
        roles: moment.roles.into_iter().map(Name::to_string).collect(),
        why: moment.why,
        pass: moment.pass,
    }
}

/// A step up to its first pause, each name in it as what it stands for.
fn in_short(procedure: &CheckedProcedure, step: &Step) -> String {
    let words = step.text.iter().map(|piece| match piece {
        Piece::Text(text) => text.as_str(),
        Piece::Mention(name) => procedure.called(&name.value),
    });
    let short = first_words(&words.collect::<String>(), LONGEST);
    short.strip_suffix('.').filter(|title| !title.ends_with('.')).unwrap_or(&short).to_owned()
}

fn wait(view: View<'_>, wait: &run::PlannedWait<'_>) -> PlannedWait {
    PlannedWait {
        name: wait.name.to_string(),
        what: wait.what.to_owned(),
        at_least: wait.at_least.cloned(),
        at_most: wait.at_most.cloned(),
        from: wait.from.map(|step| step.number.clone()),
        to: wait.until.map(|step| step.number.clone()),
        times: view.times_started(wait.name),
    }
}
