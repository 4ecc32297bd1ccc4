//! The texts that a record carries word for word, and its seal.

use super::page::Page;
use crate::record::model::Record;

pub(super) fn write(page: &mut Page, record: &Record) {
    page.heading("Seal");
    page.put(0, &record.seal.method);
    page.put(0, &record.seal.sha256);
    page.heading("The procedure as it was followed");
    page.field(0, "SHA-256", &record.procedure.sha256);
    page.verbatim(&record.procedure.text);
    if let Some(sheet) = &record.vehicle.sheet {
        page.heading("The vehicle sheet as it was used");
        page.field(0, "SHA-256", &sheet.sha256);
        page.verbatim(&sheet.text);
    }
    page.heading("The journal");
    for line in &record.journal {
        page.verbatim(line);
    }
}
