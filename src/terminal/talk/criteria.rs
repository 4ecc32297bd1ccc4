//! What the results of a step have to meet, said before a run.

use super::paper::Paper;
use crate::procedure::{Name, Reading, ReadingKind, Step, Tool, Value, Wait};
use crate::terminal::{Line, Role, Text};
use crate::trade::measurement::Rule;

/// What comes out at a step: a reading, a computed value, a wait.
pub(super) struct Outcome {
    pub(super) what: String,
    pub(super) form: Form,
    /// Everything it is judged by.
    pub(super) said: Vec<String>,
}

/// How an outcome is written down.
pub(super) enum Form {
    /// As one of these.
    Choices(Vec<String>),
    /// So: `in kPa`.
    Written(String),
    /// Worked out from others, by this formula.
    Computed(String),
    /// A clock starts.
    Clock,
}

/// The outcomes of a step.
pub(super) fn outcomes(paper: Paper<'_>, step: &Step) -> Vec<Outcome> {
    let procedure = paper.procedure;
    let hold = step.hold.as_ref().and_then(|hold| procedure.hold(hold));
    let of_hold = hold.map(|hold| hold.readings.as_slice()).unwrap_or_default();
    let readings = step.takes.iter().chain(of_hold).filter_map(|name| procedure.reading(name));
    let readings = readings.map(|reading| of_reading(paper, reading));
    let values = step.computes.iter().filter_map(|name| procedure.value(name));
    let values = values.map(|value| of_value(paper, value));
    let waits = step.starts.iter().filter_map(|name| procedure.wait(name)).map(of_wait);
    readings.chain(values).chain(waits).collect()
}

/// Each reading that the step takes and each value that it computes, with everything it is judged by; its waits.
pub(super) fn criteria(paper: Paper<'_>, step: &Step) -> Text {
    outcomes(paper, step).iter().fold(Text::new(), |text, outcome| text.line(line(outcome)))
}

fn line(outcome: &Outcome) -> Line {
    let form = match &outcome.form {
        Form::Choices(choices) => format!("one of: {}", choices.join(", ")),
        Form::Written(words) => words.clone(),
        Form::Computed(formula) => format!("computed, {formula}"),
        Form::Clock => String::new(),
    };
    let form = (!form.is_empty()).then_some(form);
    let said: Vec<String> = form.into_iter().chain(outcome.said.iter().cloned()).collect();
    Line::new().with(Role::Strong, format!("{}: ", outcome.what)).with(Role::Plain, joined(&said)).hang(2)
}

/// One after the other; a sentence among them loses its full stop.
pub(super) fn joined(said: &[String]) -> String {
    said.iter().map(|words| words.trim_end_matches('.')).collect::<Vec<_>>().join("; ")
}

fn of_reading(paper: Paper<'_>, reading: &Reading) -> Outcome {
    let form = match &reading.kind {
        ReadingKind::Choice { choices, .. } => Form::Choices(choices.clone()),
        other => Form::Written(super::words::form(other)),
    };
    Outcome { what: reading.what.clone(), form, said: judged_by(paper, reading) }
}

fn judged_by(paper: Paper<'_>, reading: &Reading) -> Vec<String> {
    let mut said = Vec::new();
    match &reading.kind {
        ReadingKind::Quantity { plausible, criterion, rule, .. } => {
            said.push(paper.criterion(criterion).unwrap_or_else(no_limit));
            said.extend(plausible.as_ref().map(|(low, high)| format!("likely from {low} to {high}")));
            said.extend(decision(*rule, reading));
        }
        ReadingKind::Count { criterion } => said.push(paper.criterion(criterion).unwrap_or_else(no_limit)),
        ReadingKind::Choice { accept, .. } => {
            let good = accept.as_ref().map(|accept| format!("good: {}", accept.join(" or ")));
            said.push(good.unwrap_or_else(no_limit));
        }
        ReadingKind::Date { earliest, latest } => {
            said.push(super::words::by_dates(*earliest, *latest).unwrap_or_else(no_limit));
        }
        ReadingKind::Text | ReadingKind::List { .. } | ReadingKind::File => {}
    }
    said.extend(super::words::instead(reading));
    said.extend(ceiling(paper, reading));
    let instrument = reading.instrument.as_ref().and_then(|name| paper.procedure.tool(name));
    said.extend(instrument.map(taken_with));
    said.extend(reading.second.as_ref().map(|second| {
        let agree = second.agree.as_ref().map(|agree| format!(", good to {agree}")).unwrap_or_default();
        format!("read again by the {}{agree}", second.by)
    }));
    said.extend(otherwise(reading.fails.as_ref(), &reading.sides));
    said.extend(reading.source.as_ref().map(|source| format!("from: {source}")));
    said
}

fn no_limit() -> String {
    "for information, no limit".to_owned()
}

/// What the accuracy of the instrument has to do with the verdict; nothing where there is neither.
fn decision(rule: Rule, reading: &Reading) -> Option<String> {
    let is_said = rule != Rule::Simple || reading.instrument.is_some();
    is_said.then(|| format!("decision rule: {}", rule.words()))
}

fn ceiling(paper: Paper<'_>, reading: &Reading) -> Vec<String> {
    let Some(ceiling) = &reading.ceiling else {
        return Vec::new();
    };
    let below = ceiling.never_below.iter().map(|end| format!("never below {}", paper.formula(end)));
    let above = ceiling.never_above.iter().map(|end| format!("never above {}", paper.formula(end)));
    let ends: Vec<String> = below.chain(above).collect();
    vec![format!(
        "{}: beyond it the work stops, and this is verified again: {}",
        ends.join(", "),
        paper.procedure.called(&ceiling.opens)
    )]
}

fn taken_with(tool: &Tool) -> String {
    let accuracy = tool
        .accuracy
        .as_ref()
        .map(|accuracy| format!(", good to {}", accuracy.plus_minus()))
        .unwrap_or_default();
    format!("with the {}{accuracy}", tool.what)
}

fn otherwise(fails: Option<&String>, sides: &crate::procedure::Sides) -> Vec<String> {
    let low = sides.too_low.iter().map(|help| format!("too low: {help}"));
    let high = sides.too_high.iter().map(|help| format!("too high: {help}"));
    fails.iter().map(|help| format!("if not good: {help}")).chain(low).chain(high).collect()
}

fn of_value(paper: Paper<'_>, value: &Value) -> Outcome {
    let mut said = vec![paper.criterion(&value.criterion).unwrap_or_else(no_limit)];
    said.extend(otherwise(value.fails.as_ref(), &value.sides));
    said.extend(value.source.as_ref().map(|source| format!("from: {source}")));
    Outcome { what: value.what.clone(), form: Form::Computed(paper.formula(&value.formula)), said }
}

fn of_wait(wait: &Wait) -> Outcome {
    let least = wait.at_least.iter().map(|least| format!("a clock starts; at least {least}"));
    let most = wait.at_most.iter().map(|most| format!("at most {most}"));
    Outcome { what: wait.what.clone(), form: Form::Clock, said: least.chain(most).collect() }
}

/// The limits in force from a step on.
pub(super) fn watch(paper: Paper<'_>, name: &Name) -> Option<String> {
    let watch = paper.procedure.watch(name)?;
    let limit = paper.criterion(&watch.criterion).map(|limit| format!(", {limit}")).unwrap_or_default();
    Some(format!("From here on: {}{limit}", watch.what))
}
