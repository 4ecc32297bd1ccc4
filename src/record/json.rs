//! The record as data.

use super::model::Record;
use crate::source::escaped;

/// The record as JSON that a person can read too: one field a line, in the order of the format.
pub fn to_json(record: &Record) -> String {
    // Texts, whole numbers and lists of them: nothing that could fail to become JSON.
    let mut json = serde_json::to_string_pretty(record).unwrap_or_default();
    json.push('\n');
    escaped(&json)
}

/// What the JSON of a record looks like, as a JSON Schema (draft 2020-12).
pub const SCHEMA: &str = include_str!("record.schema.json");
