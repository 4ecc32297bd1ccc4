//! Limits in force over several steps.

use super::page::Page;
use super::said::{answer, moment};
use crate::record::model::{LimitInForce, Record};

/// Nothing where there is nothing of the kind.
pub(super) fn write(page: &mut Page, record: &Record) {
    if record.limits_in_force.is_empty() {
        return;
    }
    page.heading("Limits in force");
    record.limits_in_force.iter().for_each(|limit| write_limit(page, limit));
}

fn write_limit(page: &mut Page, limit: &LimitInForce) {
    page.put(0, &format!("{} [{}]: {}", limit.what, limit.name, limit.verdict.to_uppercase()));
    let since = limit.since.as_ref();
    page.field(2, "since", &since.map_or_else(|| "never in force".to_owned(), moment));
    if since.is_some() {
        page.field(2, "until", &limit.until.as_ref().map_or_else(|| "still in force".to_owned(), moment));
    }
    for reading in &limit.readings {
        let pass = reading.place.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
        let broke =
            reading.broke.as_deref().map_or_else(|| "kept".to_owned(), |why| format!("broken: {why}"));
        let words = format!("{}{pass}: {}; {broke}", reading.name, answer(&reading.answer));
        page.put(2, &format!("{words} ({})", moment(&reading.when)));
    }
}
