//! Steps, what became of each; repeats and the hazards that were acknowledged.

use std::collections::BTreeMap;

use super::readings::ELSEWHERE;
use super::said::{address, aside, entered_late, people};
use super::trail::Trail;
use super::{listed, table};
use crate::print::{Block, Row, Section};
use crate::record::model::{Change, Record, Repeat, Step};

const COLUMNS: [&str; 3] = ["Step", "State", "What it says"];

/// The steps that gave a reason first, by that reason.
type Reasons<'a> = BTreeMap<&'a str, String>;

/// Section by section.
pub(super) fn section(record: &Record, trail: &mut Trail) -> Option<Section> {
    let mut blocks = Vec::new();
    let mut reasons = Reasons::new();
    for steps in record.steps.chunk_by(|one, other| one.section == other.section) {
        let name = steps.first().map(|step| step.section.clone()).unwrap_or_default();
        if !name.is_empty() {
            blocks.push(Block::Heading(name.clone()));
        }
        let caption = if name.is_empty() { "Steps".to_owned() } else { format!("Steps: {name}") };
        let rows: Vec<Row> = steps.iter().map(|step| row(step, &mut reasons, trail)).collect();
        let full = table(&caption, &COLUMNS, rows.clone());
        if !steps.iter().any(is_passed_by) {
            blocks.push(full);
            continue;
        }
        let others = rows.into_iter().zip(steps).filter(|(_, step)| !is_passed_by(step)).map(|(row, _)| row);
        let others: Vec<Row> = others.chain(passed_by(steps, &reasons)).collect();
        blocks.push(Block::Long { full: Box::new(full), short: vec![table(&caption, &COLUMNS, others)] });
    }
    if record.steps.iter().any(is_passed_by) {
        let short = vec![Block::Words(format!("Not applicable: {ELSEWHERE}"))];
        blocks.push(Block::Long { full: Box::new(Block::Items(Vec::new())), short });
    }
    (!blocks.is_empty()).then(|| Section::rest("Steps", blocks))
}

/// A step of which nothing happened but that a condition took it out.
fn is_passed_by(step: &Step) -> bool {
    step.state == "not applicable"
        && step.changes.is_empty()
        && step.who.is_empty()
        && step.place.aside.is_none()
}

/// These, one row for each reason.
fn passed_by(steps: &[Step], reasons: &Reasons<'_>) -> Vec<Row> {
    let mut by_reason: Vec<(Option<&str>, Vec<String>)> = Vec::new();
    for step in steps.iter().filter(|step| is_passed_by(step)) {
        let (why, at) = (step.why.as_deref(), address(&step.number, &step.place));
        match by_reason.iter_mut().find(|(other, _)| *other == why) {
            Some((_, all)) => all.push(at),
            None => by_reason.push((why, vec![at])),
        }
    }
    let rows = by_reason.into_iter().map(|(why, all)| {
        let first = why.and_then(|why| reasons.get(why)).filter(|first| !all.contains(first));
        let why = match (first, why) {
            (Some(first), _) => format!("why as for {first}"),
            (None, Some(why)) => why.to_owned(),
            (None, None) => String::new(),
        };
        Row { at: all.join(", "), what: "NOT APPLICABLE".to_owned(), cells: vec![why], ..Row::default() }
    });
    rows.collect()
}

/// A reason that stands with an earlier step is not said again.
fn row<'a>(step: &'a Step, reasons: &mut Reasons<'a>, trail: &mut Trail) -> Row {
    let at = address(&step.number, &step.place);
    let mut state = step.state.to_uppercase();
    let mut notes: Vec<String> = aside(&step.place).into_iter().collect();
    let mut changes: Vec<&Change> = step.changes.iter().filter(|change| !is_aside(step, change)).collect();
    let named =
        (!step.who.is_empty()).then(|| people(&step.who)).filter(|who| trail.usual().as_ref() != Some(who));
    // What is no more than that it was done stands with the state.
    if let [only] = changes[..]
        && only.to == step.state
        && only.reason.is_none()
        && only.late.is_none()
    {
        state = format!("{state}, {}", trail.cite(&only.when, format!("{} {}", step.number, only.to)));
        changes.clear();
    }
    if let Some(who) = named {
        state = format!("{state}, {who}");
    }
    if let Some(why) = step.why.as_deref() {
        if let Some(first) = reasons.get(why) {
            state = format!("{state}, why as for {first}");
        } else {
            notes.push(format!("why: {why}"));
            reasons.insert(why, at.clone());
        }
    }
    notes.extend(changes.into_iter().map(|change| changed(&step.number, change, trail)));
    notes.extend(step.from.as_ref().map(|from| format!("from {from}")));
    Row { at, what: state, cells: vec![step.text.clone()], notes, ..Row::default() }
}

/// What the head of the step has said already.
fn is_aside(step: &Step, change: &Change) -> bool {
    step.place.aside.as_ref().is_some_and(|aside| aside.how == change.to)
}

fn changed(number: &str, change: &Change, trail: &mut Trail) -> String {
    let reason = change.reason.as_ref().map(|reason| format!(": {reason}")).unwrap_or_default();
    let late = change.late.as_ref().map(|late| format!("; {}", entered_late(late))).unwrap_or_default();
    format!("{}{reason} ({}{late})", change.to, trail.cite(&change.when, format!("{number} {}", change.to)))
}

pub(super) fn repeats(record: &Record, trail: &mut Trail) -> Option<Section> {
    let rows = record.repeats.iter().map(|repeat| repeat_row(repeat, trail)).collect();
    listed("Repeats", &["Repeat", "Where", "Verdict"], rows)
}

fn repeat_row(repeat: &Repeat, trail: &mut Trail) -> Row {
    let within = repeat.place.pass.as_ref().map(|pass| format!("within {pass}")).unwrap_or_default();
    let mut notes: Vec<String> = aside(&repeat.place).into_iter().collect();
    for pass in &repeat.passes {
        let reason = pass.reason.as_ref().map(|reason| format!(": {reason}")).unwrap_or_default();
        let ended =
            pass.ended.as_ref().map(|ended| trail.cite(ended, format!("[{}] {}", repeat.name, pass.pass)));
        let ended = ended.map(|ended| format!(" ({ended})")).unwrap_or_default();
        notes.push(format!("{}: {}{reason}{ended}", pass.pass, pass.end));
    }
    Row {
        at: format!("{} [{}]", repeat.what, repeat.name),
        what: within,
        cells: vec![repeat.verdict.clone()],
        notes,
        ..Row::default()
    }
}

pub(super) fn hazards(record: &Record, trail: &mut Trail) -> Option<Section> {
    let rows = record.hazards.iter().map(|hazard| Row {
        at: address(&hazard.step, &hazard.place),
        what: hazard.signal.clone(),
        cells: vec![
            hazard.hazard.clone(),
            trail.cite(&hazard.when, format!("{} {} read", hazard.step, hazard.signal)),
        ],
        ..Row::default()
    });
    listed("Hazards acknowledged", &["Step", "Signal", "Hazard", "Entry"], rows.collect())
}
