//! What falls due after the run.

use super::page::Page;
use super::said::moment;
use crate::record::model::Record;

/// Nothing where there is nothing of the kind.
pub(super) fn write(page: &mut Page, record: &Record) {
    if record.dues.is_empty() {
        return;
    }
    page.heading("Due");
    for due in &record.dues {
        page.put(0, &format!("{} [{}]: {}", due.what, due.name, due.words));
        page.put(2, &format!("reckoned from {}, step {} ({})", due.since, due.step, moment(&due.set)));
    }
}
