//! The first page: what was found, done, measured, what is not as it should be, what is due.

use super::in_pass;
use super::page::Page;
use crate::job::record::model::{Found, JobRecord, Run};

pub(super) fn write(page: &mut Page, record: &JobRecord) {
    page.put(0, if record.is_complete() { "RECORD OF THE JOB" } else { "RECORD OF THE JOB, NOT FINISHED" });
    page.put(0, &record.title);
    page.put(0, &record.what);
    page.blank();
    if record.runs.iter().any(|run| run.answered_from.is_some()) {
        page.put(0, "ANSWERED FROM FILES, NOT BY A PERSON, where the run says so: the times are the files', not a clock's.");
        page.blank();
    }
    page.field(0, "Result", &record.result);
    if let Some(vehicle) = &record.vehicle {
        page.field(0, "Vehicle", &vehicle.description);
        page.field(0, "Identification", &vehicle.identification);
    }
    for open in &record.open {
        page.field(0, "Open", open);
    }
    for unread in &record.unread {
        page.field(0, "NOT READ", unread);
    }
    page.heading("What was found");
    found(page, record);
    page.heading("What was done");
    page.put(0, &done(record));
    page.heading("What was measured");
    page.put(0, &measured(record));
    page.heading("What is not as the procedures want it");
    not_perfect(page, record);
    left_to_do(page, record);
    page.heading("What is due");
    for due in &record.dues {
        page.put(0, &format!("{}: {}.", due.due.what, due.due.words));
    }
    if record.dues.is_empty() {
        page.put(0, "No step that sets a date is done.");
    }
}

fn found(page: &mut Page, record: &JobRecord) {
    let all = || record.runs.iter().flat_map(|run| run.found.iter().map(move |found| (run, found)));
    all().for_each(|(run, found)| page.put(0, &sentence(run, found)));
    if all().next().is_none() {
        page.put(0, "Nothing was outside its limits.");
    }
}

/// `In "Fluid as found": level was below the mark (why); taken again: on the mark, pass.`
fn sentence(run: &Run, found: &Found) -> String {
    let pass = in_pass(found.pass.as_ref());
    format!("In \"{}\", {}{pass}: {} ({}); {}.", run.title, found.what, found.found, found.why, found.then)
}

fn done(record: &JobRecord) -> String {
    let day = |run: &Run| Some(run.closed.as_ref()?.at.split('T').next()?.to_owned());
    let done = record.runs.iter().filter_map(|run| Some(format!("{} ({})", run.title, day(run)?)));
    let done: Vec<String> = done.collect();
    let hours = &record.hours.time;
    if done.is_empty() {
        return "No procedure is closed yet.".to_owned();
    }
    format!("{} procedures were done, {hours} by the entries: {}.", done.len(), done.join("; "))
}

fn measured(record: &JobRecord) -> String {
    let results: usize = record.runs.iter().map(|run| run.results).sum();
    let found: usize = record.runs.iter().map(|run| run.found.len()).sum();
    let applies = || record.fasteners.iter().filter(|group| group.state != "not applicable");
    let done = applies().filter(|group| group.state == "done").count();
    let groups = match applies().count() {
        0 => String::new(),
        groups => format!("; {done} of {groups} groups of fasteners are done"),
    };
    format!("{results} results were taken, {found} of them outside their limits at first{groups}.")
}

fn not_perfect(page: &mut Page, record: &JobRecord) {
    let mut count = 0;
    for run in &record.runs {
        for deviation in &run.deviations {
            count += 1;
            let disposition = deviation.disposition.as_deref().unwrap_or("not decided yet");
            let words = format!("{}, {}: {}", deviation.departs, disposition, deviation.reason);
            page.put(0, &format!("In \"{}\", {words}.", run.title));
        }
    }
    let groups =
        record.fasteners.iter().filter(|group| !["done", "not applicable"].contains(&group.state.as_str()));
    for group in groups {
        count += 1;
        page.put(0, &format!("{}: {} (run {}, step {}).", group.what, group.state, group.run, group.step));
    }
    for balance in &record.balances {
        if let Some(without) = balance.sum.as_ref().and_then(|sum| sum.without.as_ref()) {
            count += 1;
            page.put(0, &format!("{}: the sum is not whole, {without}.", balance.what));
        }
    }
    if count == 0 {
        page.put(0, "There is no deviation.");
    }
}

/// What is still to be done, and what left the job undone.
fn left_to_do(page: &mut Page, record: &JobRecord) {
    let undone = |became: &Option<String>| {
        became.as_ref().is_none_or(|became| became.starts_with("carried out of the job"))
    };
    let ends: Vec<_> = record.loose_ends.iter().filter(|end| undone(&end.became)).collect();
    if ends.is_empty() {
        return;
    }
    page.heading("What is left to do");
    for end in ends {
        let became = end.became.as_deref().unwrap_or("OPEN");
        page.put(0, &format!("{} ({}, run {}): {became}.", end.what, end.left_at, end.run));
    }
}
