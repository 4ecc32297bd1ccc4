//! Who, what, on which vehicle, how it came out, and what was not as it should be.

use super::page::Page;
use super::said::{address, answer, converted, converted_answer, moment, people, typed, write_aside};
use crate::record::model::{Deviation, Log, NotFinished, Record, Replaced, Vehicle};

pub(super) fn write(page: &mut Page, record: &Record) {
    head(page, record);
    if let Some(open) = &record.not_finished {
        not_finished(page, open);
    }
    details(page, record);
}

/// What the next owner asks first: how it came out, what was not as it should be, who, which vehicle, when.
pub(super) fn head(page: &mut Page, record: &Record) {
    page.put(0, if record.not_finished.is_some() { "RECORD, NOT FINISHED" } else { "RECORD" });
    page.put(0, &record.procedure.title);
    page.blank();
    if let Some(redacted) = &record.redacted {
        let hidden = redacted.hidden.join(" and ");
        page.put(0, &format!("REDACTED COPY of the record with the seal {}: {hidden} hidden.", redacted.of));
        page.put(
            0,
            "That it is a copy, only who has that record can show: the same hidden in it gives the same copy.",
        );
        page.blank();
    }
    if let Some(file) = &record.answered_from {
        page.put(
            0,
            &format!(
                "ANSWERED FROM A FILE, NOT BY A PERSON: {file}. The times are the file's, not a clock's."
            ),
        );
        page.blank();
    }
    page.field(0, "Result", &record.result);
    page.put(0, &format!("Deviations: {}", record.deviations.count));
    let names: Vec<String> =
        record.people.iter().map(|person| format!("{} ({})", person.name, person.role)).collect();
    page.field(0, "People", &names.join(", "));
    vehicle(page, &record.vehicle);
    let procedure = &record.procedure;
    page.field(
        0,
        "Procedure",
        &format!("{}, revision {}, {}", procedure.id, procedure.revision, procedure.date),
    );
    page.field(0, "Began", &moment(&record.began));
    page.field(0, "Closed", &record.closed.as_ref().map_or_else(|| "not closed".to_owned(), moment));
    page.field(0, "Run", &record.run);
    for log in &record.logs {
        let late: Vec<String> = late_rows(log);
        if !late.is_empty() {
            page.field(0, "LATE", &format!("{}: {}", log.what, late.join("; ")));
        }
    }
    for jump in &record.clock {
        page.field(0, "CLOCK", &format!("{} ({})", jump.words, moment(&jump.when)));
    }
    deviations(page, &record.deviations.all);
    left(page, record);
}

/// What is left to be done, and what protects beyond the run.
fn left(page: &mut Page, record: &Record) {
    for found in &record.found_in_force {
        let since = format!("looked at by {}, {}, run {}", found.by, moment(&found.when), found.run);
        page.field(0, "Found in force", &format!("{} ({since})", found.what));
    }
    for end in &record.loose_ends {
        let became = end.became.as_deref().unwrap_or("OPEN");
        page.field(0, "Loose end", &format!("{} ({}): {became}", end.what, end.left_at));
        page.maybe(2, "left", end.when.as_ref().map(moment).as_deref());
        page.maybe(2, "entered", end.became_when.as_ref().map(moment).as_deref());
    }
    for protection in &record.left_in_force {
        let since = format!("released by {}, {}", protection.by, moment(&protection.since));
        page.field(0, "Left in force", &format!("{} ({since})", protection.what));
        page.maybe(2, "verify again", protection.lapsed.as_deref());
    }
}

/// How it was left, what protects, what is open.
fn not_finished(page: &mut Page, open: &NotFinished) {
    page.heading("Not finished");
    page.put(0, &format!("{}, {}", open.how, moment(&open.when)));
    page.maybe(0, "why", open.reason.as_deref());
    page.maybe(0, "left", open.left.as_deref());
    page.maybe(0, "first next time", open.first.as_deref());
    for protection in &open.protections {
        page.field(0, "protection in force", &protection.what);
        page.put(2, &format!("released by {}, {}", protection.by, moment(&protection.since)));
        page.maybe(2, "verify again", protection.lapsed.as_deref());
    }
    if open.protections.is_empty() {
        page.put(0, "no protection in force");
    }
    for item in &open.open {
        page.field(0, "open", item);
    }
}

/// The rows of a log that came too late: `row 3 by 3 min`.
fn late_rows(log: &Log) -> Vec<String> {
    let rows = log.rows.iter().enumerate();
    let late = rows.filter_map(|(index, row)| Some((index + 1, row.late.as_deref()?)));
    late.map(|(number, late)| format!("row {number}{}", late.strip_prefix("late").unwrap_or(late))).collect()
}

fn vehicle(page: &mut Page, vehicle: &Vehicle) {
    page.field(0, "Vehicle", vehicle.description.as_deref().unwrap_or("no vehicle sheet"));
    page.maybe(0, "Identification", vehicle.identification.as_deref());
    let odometer = vehicle.odometer.as_ref().map(typed);
    page.maybe(0, "Odometer", odometer.as_deref());
    page.maybe(2, "converted", vehicle.odometer.as_ref().and_then(converted).as_deref());
    replaced(page, &vehicle.odometer_before);
}

/// What stood there before it was corrected.
fn replaced(page: &mut Page, before: &[Replaced]) {
    for replaced in before {
        let source = replaced.source.as_ref().map(|source| format!(" ({source})")).unwrap_or_default();
        let words =
            format!("{}{source}: {}, {}", answer(&replaced.value), replaced.reason, moment(&replaced.when));
        page.field(2, "corrected, before", &words);
    }
}

fn deviations(page: &mut Page, deviations: &[Deviation]) {
    for deviation in deviations {
        page.blank();
        page.put(0, &format!("Deviation {}{}: {}", deviation.number, at_step(deviation), deviation.departs));
        write_aside(page, 2, &deviation.place);
        page.field(2, "why", &deviation.reason);
        page.field(2, "entered", &format!("{}, {}", moment(&deviation.when), people(&deviation.who)));
        page.field(2, "disposition", &disposition(deviation));
        page.maybe(2, "decided", deviation.decided.as_ref().map(moment).as_deref());
    }
}

/// A departure of the whole job stands at no step.
fn at_step(deviation: &Deviation) -> String {
    let step = if deviation.step.is_empty() { String::new() } else { format!(", step {}", deviation.step) };
    address(&step, &deviation.place)
}

/// A reason that serves for both the departure and its disposition is said once.
fn disposition(deviation: &Deviation) -> String {
    match (&deviation.disposition, &deviation.justification) {
        (Some(disposition), Some(why)) if *why != deviation.reason => format!("{disposition}: {why}"),
        (Some(disposition), _) => disposition.clone(),
        (None, _) => "not decided yet".to_owned(),
    }
}

fn details(page: &mut Page, record: &Record) {
    page.heading("Procedure");
    page.field(0, "Author", &record.procedure.author);
    for linked in &record.procedure.linked {
        let words =
            format!("{} ({}), revision {}, {}", linked.title, linked.address, linked.revision, linked.date);
        page.field(0, "Runs within it", &format!("{words}, by {}", linked.author));
    }
    page.field(0, "Applicability", &record.procedure.scope);
    page.field(0, "Level of use", &record.procedure.level_of_use);
    page.field(0, "bayhand", &format!("{}, record format {}", record.engine, record.format));
    page.heading("People");
    for person in &record.people {
        page.put(0, &format!("{} ({}): {}", person.name, person.role, person.what));
        page.put(2, &moment(&person.when));
        super::people::write_turnover(page, person);
    }
    page.heading("Vehicle values");
    for value in &record.vehicle.values {
        page.put(0, &format!("{} [{}]: {}", value.what, value.name, answer(&value.value)));
        page.maybe(2, "converted", converted_answer(&value.value).as_deref());
        page.field(2, "source", &value.source);
        page.maybe(2, "entered", value.entered.as_ref().map(moment).as_deref());
        replaced(page, &value.before);
    }
    if record.vehicle.values.is_empty() {
        page.put(0, "none");
    }
}
