//! Every run: when, who, how it came out, and the seal of its own record.

use super::page::Page;
use super::{in_pass, moment};
use crate::job::record::model::{Deviation, Found, JobRecord, Run};

pub(super) fn write(page: &mut Page, record: &JobRecord) {
    page.heading("Runs");
    for run in &record.runs {
        page.blank();
        one(page, run);
    }
    if record.runs.is_empty() {
        page.put(0, "none yet");
    }
}

fn one(page: &mut Page, run: &Run) {
    page.put(0, &format!("{} ({}, revision {})", run.title, run.procedure, run.revision));
    page.field(2, "run", &format!("{}, bayhand {}", run.run, run.engine));
    page.maybe(2, "answered from", run.answered_from.as_deref());
    page.field(2, "result", &run.result);
    page.field(2, "people", &run.people.join(", "));
    page.maybe(2, "odometer", run.odometer.as_deref());
    page.field(2, "began", &moment(&run.began));
    page.field(2, "closed", &run.closed.as_ref().map_or_else(|| "not closed".to_owned(), moment));
    page.field(2, "last entry", &moment(&run.last));
    page.field(2, "time between its entries", &run.time);
    page.field(2, "results", &run.results.to_string());
    run.found.iter().for_each(|one| found(page, one));
    run.deviations.iter().for_each(|one| deviation(page, one));
    page.field(2, "seal of its record", &run.seal);
}

fn found(page: &mut Page, found: &Found) {
    let pass = in_pass(found.pass.as_ref());
    let head = format!(
        "{} [{}], step {}{pass}: {} ({})",
        found.what, found.name, found.step, found.found, found.why
    );
    let when = found.when.as_ref().map(|when| format!(" ({})", moment(when))).unwrap_or_default();
    page.field(2, "outside its limits", &format!("{head}; {}{when}", found.then));
}

fn deviation(page: &mut Page, deviation: &Deviation) {
    let step = if deviation.step.is_empty() { String::new() } else { format!(", step {}", deviation.step) };
    let head = format!("deviation {}{step}", deviation.number);
    let disposition = deviation.disposition.as_deref().unwrap_or("not decided yet");
    let words = format!("{}; {}; {disposition}", deviation.departs, deviation.reason);
    page.field(2, &head, &format!("{words} ({})", moment(&deviation.when)));
}
