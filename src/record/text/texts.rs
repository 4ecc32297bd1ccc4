//! What the record was made from, and its seal.

use super::page::Page;
use crate::record::model::Record;

pub(super) fn write(page: &mut Page, record: &Record) {
    page.heading("Seal");
    page.put(0, &record.seal.method);
    page.put(0, &record.seal.sha256);
    page.heading("Carried with the record");
    page.put(0, "The sealed record as data holds these word for word; `bayhand record --json` prints it.");
    page.field(0, "Procedure, SHA-256", &record.procedure.sha256);
    for linked in &record.procedure.linked {
        page.field(0, &format!("{}, SHA-256", linked.address), &linked.sha256);
    }
    if let Some(sheet) = &record.vehicle.sheet {
        page.field(0, "Vehicle sheet, SHA-256", &sheet.sha256);
    }
    page.field(0, "Journal, entries", &record.journal.len().to_string());
}
