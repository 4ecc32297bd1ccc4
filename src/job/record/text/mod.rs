//! The record of a job as text: on the first page what an owner asks first, in sentences; behind it every run and figure.
//!
//! It says everything that the record says as data.

mod first_page;
mod page;
mod parts;
mod runs;

use super::model::JobRecord;
use crate::record::model::Moment;
use crate::record::report::time;
use crate::record::text::NARROWEST;
use page::Page;

/// The record of a job as text, no line wider than `width` but what cannot be broken.
pub fn render(record: &JobRecord, width: usize) -> String {
    let mut page = Page::new(width.max(NARROWEST));
    first_page::write(&mut page, record);
    runs::write(&mut page, record);
    parts::write(&mut page, record);
    page.heading("Seal");
    page.field(0, &record.seal.method, &record.seal.sha256);
    page.put(0, &format!("job {}, record format {}", record.job, record.format));
    page.finish()
}

/// `2026-11-21 18:30:05 +01:00, entry 12`.
fn moment(moment: &Moment) -> String {
    format!("{}, entry {}", time(&moment.at), moment.entry)
}

/// `, pass 2 of 3`, where it is one.
fn in_pass(pass: Option<&String>) -> String {
    pass.map(|pass| format!(", {pass}")).unwrap_or_default()
}
