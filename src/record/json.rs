//! The record as data.

use super::model::Record;

/// The record as JSON that a person can read too: one field a line, in the order of the format.
pub fn to_json(record: &Record) -> String {
    // Texts, whole numbers and lists of them: nothing that could fail to become JSON.
    let mut json = serde_json::to_string_pretty(record).unwrap_or_default();
    json.push('\n');
    json
}
