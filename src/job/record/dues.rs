//! What falls due after the runs of a job.

use super::model::Due;
use crate::journal::Digest;
use crate::record::model::Record;

/// What falls due after a run.
pub fn dues(record: &Record) -> impl Iterator<Item = Due> {
    record.dues.iter().map(|due| Due {
        run: record.run.clone(),
        uid: uid(record, &due.name),
        due: due.clone(),
    })
}

/// The same for the same due, whenever it is asked for, and another for any other: no two runs begin with the same entry.
fn uid(record: &Record, name: &str) -> String {
    const LENGTH: usize = 32;
    let first = record.journal.first().map(String::as_str).unwrap_or_default();
    let digest = Digest::of(format!("{first}\n{name}").as_bytes()).to_string();
    format!("{}@bayhand", digest.get(..LENGTH).unwrap_or(&digest))
}
