//! Who did what, who was briefed, and who looked at whose work.

use super::said::{address, aside, people};
use super::table;
use super::trail::Trail;
use crate::print::{Block, Row, Section};
use crate::record::model::{Brief, Look, Person, Record};

#[expect(clippy::unnecessary_wraps, reason = "one of the sections, of which some are not there")]
pub(super) fn section(record: &Record, trail: &mut Trail) -> Option<Section> {
    let rows = record.people.iter().map(|person| person_row(person, trail)).collect();
    let mut blocks = vec![table("People", &["Name", "Role", "What this role does", "Entry"], rows)];
    blocks.extend(record.briefs.iter().map(|brief| Block::Items(brief_items(brief, trail))));
    if !record.looks.is_empty() {
        blocks.push(Block::Heading("Verifications, sign-offs and witness points".to_owned()));
        let rows = record.looks.iter().map(|look| look_row(look, trail)).collect();
        blocks.push(table("Who looked at whose work", &["Step", "Look", "By", "Work of", "Why"], rows));
    }
    Some(Section::rest("People", blocks))
}

fn person_row(person: &Person, trail: &mut Trail) -> Row {
    let label = format!("{} ({})", person.name, person.role);
    let entry = trail.cite(&person.when, label);
    let mut notes = Vec::new();
    for before in &person.before {
        let entry = trail.cite(&before.when, format!("{} corrected", person.role));
        notes.push(format!("corrected, before: {}: {} ({entry})", before.name, before.reason));
    }
    if let Some(turnover) = &person.turnover {
        notes.push(format!("took over from: {}", turnover.from));
        notes.extend(turnover.note.as_ref().map(|note| format!("told: {note}")));
        let accepted = turnover.accepted.as_ref();
        notes.extend(accepted.map(|accepted| {
            format!("brief read, accepted: {}", trail.cite(accepted, format!("{} accepted", person.role)))
        }));
    }
    Row {
        at: person.name.clone(),
        what: format!("({})", person.role),
        cells: vec![person.what.clone(), entry],
        notes,
        ..Row::default()
    }
}

fn brief_items(brief: &Brief, trail: &mut Trail) -> Vec<String> {
    let list = |items: &[String]| if items.is_empty() { "none".to_owned() } else { items.join("; ") };
    let entry = trail.cite(&brief.when, "pre-job brief");
    vec![
        format!("Pre-job brief, {entry}, present: {}; roles: {}", people(&brief.present), list(&brief.roles)),
        format!("hazards: {}", list(&brief.hazards)),
        format!("hold points: {}; the job is stopped with: {}", list(&brief.holds), brief.stop_word),
    ]
}

fn look_row(look: &Look, trail: &mut Trail) -> Row {
    let entry = trail.cite(&look.when, format!("{} {}", look.step, look.kind));
    let what = look.what.as_ref().map(|what| format!(": {what}")).unwrap_or_default();
    let reason = if look.kind == "found otherwise" { "it was" } else { "because" };
    let done = if look.performers.is_empty() {
        String::new()
    } else {
        format!("done by: {}", people(&look.performers))
    };
    Row {
        at: address(&look.step, &look.place),
        what: format!("{}{what}", look.kind.to_uppercase()),
        cells: vec![
            format!("{} ({}), {entry}", look.who.as_deref().unwrap_or("nobody"), look.role),
            done,
            look.reason.as_ref().map(|why| format!("{reason}: {why}")).unwrap_or_default(),
        ],
        notes: aside(&look.place).into_iter().collect(),
        ..Row::default()
    }
}
