//! Two runs that must be the same but for a correction in one of them.

use bayhand::run::Answer;
use serde_json::Value;

use super::super::drive::Drive;
use super::sayings::{by_status, record_of};

/// What only a correction says: that there was one, what stood there before, when (a sitting may have ended with it); and
/// remarks, which stand in the words in which they were told.
const OF_CORRECTIONS: [&str; 8] =
    ["corrected", "before", "odometer_before", "entered", "sittings", "notes", "seal", "journal"];

/// Whether two runs say the same; or what differs. In the second one an entry corrects another.
pub fn same_but_for_the_correction(right: &Drive, corrected: &Drive, entry: u64) -> Result<(), String> {
    let (one, other) = (by_status(right.view()), by_status(corrected.view()));
    if let Some((one, other)) = one.iter().zip(&other).find(|(one, other)| one != other) {
        return Err(format!("right at once, it would be {one:#?}\ncorrected, it is {other:#?}"));
    }
    if one.len() != other.len() {
        return Err(format!("right at once, there would be {} occurrences, not {}", one.len(), other.len()));
    }
    let (right, corrected) = (record(right, u64::MAX), record(corrected, entry));
    match difference("", &right, &corrected) {
        Some(what) => Err(format!("the record: {what}")),
        None => Ok(()),
    }
}

/// The record of a run as it stands now, not at its last entry: that may be the correction.
fn record(drive: &Drive, entry: u64) -> Value {
    let mut drive = drive.clone();
    drive.say(Answer::Note("as it stands".to_owned())).ok();
    bare(serde_json::to_value(record_of(&drive)).expect("JSON"), entry)
}

/// A record without what only a correction says; its entries numbered as if there were none.
fn bare(value: Value, entry: u64) -> Value {
    match value {
        Value::Object(map) => {
            let kept = map.into_iter().filter(|(key, _)| !OF_CORRECTIONS.contains(&key.as_str()));
            let bared = kept.map(|(key, value)| match (key.as_str(), value.as_u64()) {
                ("entry", Some(number)) if number > entry => (key, Value::from(number - 1)),
                _ => (key, bare(value, entry)),
            });
            Value::Object(bared.collect())
        }
        Value::Array(list) => Value::Array(list.into_iter().map(|value| bare(value, entry)).collect()),
        Value::String(text) => Value::String(renumbered(&text, entry)),
        other => other,
    }
}

/// Entries that are named in words: `released by Robin Vale, entry 12`.
fn renumbered(text: &str, entry: u64) -> String {
    let mut parts = text.split("entry ");
    let mut all = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let digits = part.chars().take_while(char::is_ascii_digit).count();
        let is_date = part[digits..].starts_with('-');
        let number = part[..digits].parse::<u64>().ok().filter(|_| !is_date);
        let number = number.map(|number| number - u64::from(number > entry));
        let number = number.map_or_else(|| part[..digits].to_owned(), |number| number.to_string());
        all = format!("{all}entry {number}{}", &part[digits..]);
    }
    all
}

/// Where two values differ first.
fn difference(at: &str, one: &Value, other: &Value) -> Option<String> {
    match (one, other) {
        (Value::Object(one), Value::Object(other)) => {
            let keys = one.keys().chain(other.keys().filter(|key| !one.contains_key(*key)));
            keys.into_iter().find_map(|key| {
                let value =
                    |map: &serde_json::Map<String, Value>| map.get(key).cloned().unwrap_or(Value::Null);
                difference(&format!("{at}/{key}"), &value(one), &value(other))
            })
        }
        (Value::Array(list), Value::Array(others)) if list.len() == others.len() => {
            let mut pairs = list.iter().zip(others).enumerate();
            pairs.find_map(|(place, (one, other))| difference(&format!("{at}/{place}"), one, other))
        }
        _ => (one != other).then(|| format!("{at} would be {one}, not {other}")),
    }
}
