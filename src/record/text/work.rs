//! Repeats, steps, hazards, waits, notes and sittings.

use super::page::Page;
use super::said::{address, entered_late, moment, people, time, write_aside};
use crate::record::model::{Change, Record, Repeat, Sitting, Step, Wait, WaitStart};

pub(super) fn write(page: &mut Page, record: &Record) {
    if !record.repeats.is_empty() {
        list(page, "Repeats", &record.repeats, write_repeat);
    }
    page.heading("Steps");
    let mut section = "";
    for step in &record.steps {
        if step.section != section {
            page.blank();
            page.put(0, &step.section);
            section = &step.section;
        }
        write_step(page, step);
    }
    write_hazards(page, record);
    list(page, "Waits", &record.waits, write_wait);
    if !record.logs.is_empty() {
        list(page, "Logs", &record.logs, super::logs::write);
    }
    list(page, "Notes", &record.notes, |page, note| {
        page.put(0, &format!("{}: {} ({})", note.kind, note.text, moment(&note.when)));
    });
    list(page, "Sittings", &record.sittings, write_sitting);
}

fn list<T>(page: &mut Page, heading: &str, items: &[T], write: impl Fn(&mut Page, &T)) {
    page.heading(heading);
    for item in items {
        write(page, item);
    }
    if items.is_empty() {
        page.put(0, "none");
    }
}

fn write_repeat(page: &mut Page, repeat: &Repeat) {
    let within = repeat.place.pass.as_ref().map(|pass| format!(", within {pass}")).unwrap_or_default();
    page.put(0, &format!("{} [{}]{within}: {}", repeat.what, repeat.name, repeat.verdict));
    write_aside(page, 2, &repeat.place);
    for pass in &repeat.passes {
        let reason = pass.reason.as_ref().map(|reason| format!(": {reason}")).unwrap_or_default();
        let ended = pass.ended.as_ref().map(|ended| format!(" ({})", moment(ended))).unwrap_or_default();
        page.put(2, &format!("{}: {}{reason}{ended}", pass.pass, pass.end));
    }
}

fn write_step(page: &mut Page, step: &Step) {
    let address = address(&step.number, &step.place);
    page.put(0, &format!("{address} {}: {}", step.state.to_uppercase(), step.text));
    write_aside(page, 4, &step.place);
    page.maybe(4, "from", step.from.as_deref());
    page.maybe(4, "why", step.why.as_deref());
    if !step.who.is_empty() {
        page.field(4, "who", &people(&step.who));
    }
    for change in step.changes.iter().filter(|change| !is_aside(step, change)) {
        page.put(4, &changed(change));
    }
}

/// What the head of the step has said already.
fn is_aside(step: &Step, change: &Change) -> bool {
    step.place.aside.as_ref().is_some_and(|aside| aside.how == change.to)
}

fn changed(change: &Change) -> String {
    let reason = change.reason.as_ref().map(|reason| format!(": {reason}")).unwrap_or_default();
    let late = change.late.as_ref().map(|late| format!("; {}", entered_late(late))).unwrap_or_default();
    format!("{}{reason} ({}{late})", change.to, moment(&change.when))
}

fn write_hazards(page: &mut Page, record: &Record) {
    list(page, "Hazards acknowledged", &record.hazards, |page, hazard| {
        page.put(
            0,
            &format!(
                "{} {}: {} ({})",
                address(&hazard.step, &hazard.place),
                hazard.signal,
                hazard.hazard,
                moment(&hazard.when)
            ),
        );
    });
}

fn write_wait(page: &mut Page, wait: &Wait) {
    page.put(0, &format!("{} [{}]", wait.what, wait.name));
    page.maybe(2, "at least", wait.at_least.as_deref());
    page.maybe(2, "at most", wait.at_most.as_deref());
    if wait.starts.is_empty() {
        page.put(2, "not started");
    }
    for start in &wait.starts {
        write_start(page, start);
    }
}

fn write_start(page: &mut Page, start: &WaitStart) {
    let pass = start.place.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
    page.field(2, "began", &format!("{}{pass}", moment(&start.began)));
    page.maybe(4, "its step was entered late and done", start.stated.as_deref().map(time).as_deref());
    page.maybe(4, "not before", start.not_before.as_deref().map(time).as_deref());
    page.maybe(4, "due by", start.due.as_deref().map(time).as_deref());
    page.maybe(4, "the step that needed it was done", start.used.as_ref().map(moment).as_deref());
    page.maybe(4, "missed, the path for that was taken", start.missed.as_ref().map(moment).as_deref());
    for late in &start.late {
        page.put(4, &format!("step {} came too late: {} ({})", late.step, late.reason, moment(&late.when)));
    }
}

fn write_sitting(page: &mut Page, sitting: &Sitting) {
    page.put(0, &format!("from {} to {}", moment(&sitting.began), moment(&sitting.ended.when)));
    page.maybe(2, "resume brief read", sitting.brief_read.as_ref().map(moment).as_deref());
    let reason = sitting.ended.reason.as_ref().map(|reason| format!(": {reason}")).unwrap_or_default();
    page.put(2, &format!("{}{reason}", sitting.ended.how));
    page.maybe(2, "left", sitting.ended.left.as_deref());
    page.maybe(2, "first next time", sitting.ended.first.as_deref());
}
