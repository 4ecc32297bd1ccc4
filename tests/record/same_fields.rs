//! Data and text carry the same fields, compared field by field.

use bayhand::record::model::Record;
use bayhand::record::text::render;
use serde_json::Value;

use super::support::{eventful, smooth};

fn packed(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_whitespace() && *letter != '|').collect()
}

fn summary(record: &Record) -> String {
    packed(&render(record, 80))
}

fn leaves(at: &str, value: &Value, found: &mut Vec<(String, String)>) {
    match value {
        Value::Object(map) => {
            for (key, value) in map {
                leaves(&format!("{at}/{key}"), value, found);
            }
        }
        Value::Array(list) => {
            for (index, value) in list.iter().enumerate() {
                leaves(&format!("{at}/{index}"), value, found);
            }
        }
        Value::String(text) => found.push((at.to_owned(), text.clone())),
        Value::Number(number) => found.push((at.to_owned(), number.to_string())),
        Value::Null | Value::Bool(_) => {}
    }
}

/// A time is shown to the second, its parts apart.
fn as_shown(at: &str, leaf: &str) -> String {
    let is_time = ["/at", "/not_before", "/due", "/done"].iter().any(|end| at.ends_with(end));
    if !is_time {
        return packed(leaf);
    }
    let (day, rest) = leaf.split_once('T').unwrap();
    format!("{day}{}{}", &rest[..8], &rest[12..])
}

/// A distance from a limit stands in the text to three digits, and none at all as `exactly on` it.
fn is_told_otherwise(at: &str, leaf: &str) -> bool {
    at.ends_with("/distance/amount/number")
        || (at.ends_with("/distance/amount/shown") && leaf.starts_with("0 "))
}

pub fn compare(record: &Record) {
    let value = serde_json::to_value(record).unwrap();
    let mut found = Vec::new();
    leaves("", &value, &mut found);
    let summary = summary(record);
    let carried = ["/journal/", "/procedure/text", "/procedure/sha256", "/vehicle/sheet/"];
    let missing: Vec<_> = found
        .iter()
        .filter(|(at, _)| !carried.iter().any(|carried| at.starts_with(carried)))
        .filter(|(at, leaf)| !is_endless(leaf) && !is_told_otherwise(at, leaf))
        .filter(|(at, leaf)| {
            let upper = as_shown(at, leaf).to_uppercase();
            !summary.to_uppercase().contains(&upper)
        })
        .collect();
    assert!(missing.is_empty(), "{missing:#?}");
}

#[test]
fn each_field_of_the_data_stands_in_the_text() {
    compare(&smooth());
    compare(&eventful());
}

/// A fraction without an end, or a number that is only approximate: the text shows it rounded.
fn is_endless(leaf: &str) -> bool {
    leaf.contains(['/', '~']) && bayhand::quantity::Num::from_exact_text(leaf).is_some()
}

#[test]
fn what_is_carried_is_named_by_its_hash() {
    let record = eventful();
    let text = packed(&render(&record, 80));
    assert!(text.contains(&packed(&record.procedure.sha256)));
    assert!(text.contains(&packed(&format!("Journal, entries: {}", record.journal.len()))));
}
