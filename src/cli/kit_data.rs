//! What has to be laid out before a job, as data: what `bayhand kit --json` says.

use serde::Serialize;

use crate::procedure::{Name, Supply, Tool};
use crate::run::{LaidOut, PlannedWait, Together, View};

#[derive(Serialize)]
struct Data {
    procedure: String,
    title: String,
    revision: String,
    level_of_use: &'static str,
    persons: Vec<Person>,
    tools: Vec<ToolData>,
    materials: Vec<SupplyData>,
    parts: Vec<SupplyData>,
    together: Vec<TogetherData>,
    waits: Vec<WaitData>,
    required: Vec<String>,
}

#[derive(Serialize)]
struct Person {
    role: String,
    what: String,
}

/// When something is needed first, and by whom; a step of none where no step speaks of it.
#[derive(Serialize)]
struct First {
    step: Option<String>,
    by: Vec<String>,
}

#[derive(Serialize)]
struct ToolData {
    name: String,
    what: String,
    accuracy: Option<String>,
    range: Option<[String; 2]>,
    calibrated: bool,
    first: First,
}

#[derive(Serialize)]
struct SupplyData {
    name: String,
    what: String,
    /// Worked out; none where a value is missing, or where no amount is given.
    amount: Option<String>,
    /// How the amount is worked out, in words.
    formula: Option<String>,
    first: First,
}

#[derive(Serialize)]
struct TogetherData {
    step: String,
    roles: Vec<String>,
    why: &'static str,
    pass: Option<String>,
}

#[derive(Serialize)]
struct WaitData {
    name: String,
    what: String,
    at_least: Option<String>,
    at_most: Option<String>,
    from: Option<String>,
    to: Option<String>,
}

/// What has to be laid out, as JSON.
pub(super) fn kit_json(view: View<'_>) -> serde_json::Result<String> {
    let procedure = &view.book.procedure;
    let person = |(name, role): (&Name, &crate::procedure::Role)| Person {
        role: name.to_string(),
        what: role.what.clone(),
    };
    let supply = |laid_out| supply(view, &laid_out);
    let linked = procedure.linked().iter().flat_map(|linked| &linked.header.required);
    serde_json::to_string_pretty(&Data {
        procedure: procedure.id().to_owned(),
        title: procedure.title().to_owned(),
        revision: procedure.header().revision.clone(),
        level_of_use: procedure.header().level_of_use.word(),
        persons: procedure.roles().iter().map(person).collect(),
        tools: view.tools().iter().map(tool).collect(),
        materials: view.supplies(procedure.materials()).into_iter().map(supply).collect(),
        parts: view.supplies(procedure.parts()).into_iter().map(supply).collect(),
        together: view.together().into_iter().map(together).collect(),
        waits: view.planned_waits().iter().map(wait).collect(),
        required: procedure.required().iter().chain(linked).cloned().collect(),
    })
}

fn first<T>(laid_out: &LaidOut<'_, T>) -> First {
    let by = laid_out.by.iter().map(ToString::to_string).collect();
    First { step: laid_out.first.map(|step| step.number.clone()), by }
}

fn tool(laid_out: &LaidOut<'_, Tool>) -> ToolData {
    let tool = laid_out.thing;
    ToolData {
        name: laid_out.name.to_string(),
        what: tool.what.clone(),
        accuracy: tool.accuracy.as_ref().map(ToString::to_string),
        range: tool.range.as_ref().map(|(low, high)| [low.to_string(), high.to_string()]),
        calibrated: tool.calibrated,
        first: first(laid_out),
    }
}

fn supply(view: View<'_>, laid_out: &LaidOut<'_, Supply>) -> SupplyData {
    let packed = view.packed(laid_out.thing);
    SupplyData {
        name: laid_out.name.to_string(),
        what: laid_out.thing.what.clone(),
        amount: packed.as_ref().and_then(|packed| packed.comes_to.as_ref()).map(ToString::to_string),
        formula: packed.map(|packed| view.book.procedure.worded(packed.formula)),
        first: first(laid_out),
    }
}

fn together(moment: Together<'_>) -> TogetherData {
    TogetherData {
        step: moment.step.number.clone(),
        roles: moment.roles.into_iter().map(ToString::to_string).collect(),
        why: moment.why,
        pass: moment.pass,
    }
}

fn wait(wait: &PlannedWait<'_>) -> WaitData {
    WaitData {
        name: wait.name.to_string(),
        what: wait.what.to_owned(),
        at_least: wait.at_least.map(ToString::to_string),
        at_most: wait.at_most.map(ToString::to_string),
        from: wait.from.map(|step| step.number.clone()),
        to: wait.until.map(|step| step.number.clone()),
    }
}
