//! Waits, notes and sittings.

use super::listed;
use super::said::time;
use super::trail::Trail;
use crate::print::{Block, Row, Section, Style};
use crate::record::model::{Record, Sitting, Wait, WaitStart};

pub(super) fn waits(record: &Record, trail: &mut Trail) -> Option<Section> {
    let rows = record.waits.iter().map(|wait| wait_row(wait, trail)).collect();
    listed("Waits", &["Wait", "Name", "At least", "At most"], rows)
}

fn wait_row(wait: &Wait, trail: &mut Trail) -> Row {
    let bound = |word: &str, bound: &Option<String>| {
        bound.as_ref().map(|bound| format!("{word} {bound}")).unwrap_or_default()
    };
    let mut notes: Vec<String> =
        wait.starts.iter().flat_map(|start| start_notes(&wait.name, start, trail)).collect();
    if notes.is_empty() {
        notes.push("not started".to_owned());
    }
    Row {
        at: wait.what.clone(),
        what: format!("[{}]", wait.name),
        cells: vec![bound("at least", &wait.at_least), bound("at most", &wait.at_most)],
        notes,
        ..Row::default()
    }
}

fn start_notes(name: &str, start: &WaitStart, trail: &mut Trail) -> Vec<String> {
    let pass = start.place.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
    let mut said = vec![format!("began {}{pass}", trail.cite(&start.began, format!("[{name}] began")))];
    let stated = start.stated.as_deref().map(time);
    said.extend(stated.map(|stated| format!("its step was entered late and done: {stated}")));
    said.extend(start.not_before.as_deref().map(|at| format!("not before {}", time(at))));
    said.extend(start.due.as_deref().map(|at| format!("due by {}", time(at))));
    let used = start.used.as_ref().map(|used| trail.cite(used, format!("[{name}] over")));
    said.extend(used.map(|used| format!("the step that needed it was done: {used}")));
    let missed = start.missed.as_ref().map(|missed| trail.cite(missed, format!("[{name}] missed")));
    said.extend(missed.map(|missed| format!("missed, the path for that was taken: {missed}")));
    for late in &start.late {
        let entry = trail.cite(&late.when, format!("[{name}] late"));
        said.push(format!("step {} came too late: {} ({entry})", late.step, late.reason));
    }
    said
}

pub(super) fn notes(record: &Record, trail: &mut Trail) -> Option<Section> {
    let rows = record.notes.iter().map(|note| Row {
        at: note.kind.clone(),
        what: String::new(),
        cells: vec![format!("{} ({})", note.text, trail.cite(&note.when, &note.kind))],
        ..Row::default()
    });
    let mut section = listed("Notes", &["Kind", "Of", "Note"], rows.collect())?;
    if let Some(Block::Table(table)) = section.blocks.first_mut() {
        table.style = Style::Run;
    }
    Some(section)
}

pub(super) fn sittings(record: &Record, trail: &mut Trail) -> Option<Section> {
    let rows = record.sittings.iter().enumerate();
    let rows = rows.map(|(index, sitting)| sitting_row(index + 1, sitting, trail)).collect();
    listed("Sittings", &["Sitting", "From", "To", "How it ended"], rows)
}

fn sitting_row(number: usize, sitting: &Sitting, trail: &mut Trail) -> Row {
    let ended = &sitting.ended;
    let reason = ended.reason.as_ref().map(|reason| format!(": {reason}")).unwrap_or_default();
    let brief = sitting.brief_read.as_ref().map(|read| trail.cite(read, "resume brief read"));
    let mut notes: Vec<String> =
        brief.map(|entry| format!("resume brief read: {entry}")).into_iter().collect();
    notes.extend(ended.left.as_ref().map(|left| format!("left: {left}")));
    notes.extend(ended.first.as_ref().map(|first| format!("first next time: {first}")));
    let (from, to) = (trail.cite(&sitting.began, "begun"), trail.cite(&ended.when, &ended.how));
    Row {
        at: number.to_string(),
        what: format!("from {from}"),
        cells: vec![format!("to {to}"), format!("{}{reason}", ended.how)],
        notes,
        ..Row::default()
    }
}
