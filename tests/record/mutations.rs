//! A whole record of every sort of question, changed in each of its places by somebody who makes chain and seal anew: each
//! change is found, and its place is named. Some places in the usual run, all with `BAYHAND_ALL_FLIPS=1`.

use bayhand::record::{Finding, seal_of, verify};
use serde_json::Value;

use crate::fuzz::chain::{chained, told};

fn whole() -> Value {
    serde_json::from_str(include_str!("../cases/corpus/v1/records/every.json")).expect("a record")
}

/// Every how many of `places` are tried, so that there are so many tries.
fn stride(places: usize, tries: usize) -> usize {
    if std::env::var_os("BAYHAND_ALL_FLIPS").is_some() { 1 } else { places / tries + 1 }
}

/// What is found once the seal was made anew.
fn findings(mut record: Value) -> Vec<Finding> {
    if let Some(seal) = seal_of(&record).ok().filter(|_| record["seal"].is_object()) {
        record["seal"]["sha256"] = seal.into();
    }
    verify(&record.to_string()).err().unwrap_or_default()
}

/// The JSON pointers of everything in a value, itself left out.
fn places(value: &Value) -> Vec<String> {
    let inner: Vec<(String, &Value)> = match value {
        Value::Object(map) => map.iter().map(|(key, inner)| (key.clone(), inner)).collect(),
        Value::Array(items) => items.iter().enumerate().map(|(at, inner)| (at.to_string(), inner)).collect(),
        _ => Vec::new(),
    };
    let below = |(key, inner): (String, &Value)| {
        let deeper = places(inner).into_iter().map(|place| format!("/{key}{place}")).collect::<Vec<_>>();
        std::iter::once(format!("/{key}")).chain(deeper)
    };
    inner.into_iter().flat_map(below).collect()
}

fn is_empty(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::Array(items) => items.is_empty(),
        Value::Object(map) => map.is_empty(),
        Value::Bool(is) => !is,
        _ => false,
    }
}

/// Another value of the same kind. A blank behind the last line of the journal would be no other: nothing comes after it
/// that is bound to its bytes, and it says the same.
fn otherwise(value: &Value) -> Option<Value> {
    Some(match value {
        Value::Null => "something".into(),
        Value::Bool(is) => (!is).into(),
        Value::Number(number) => (number.as_u64()? + 1).into(),
        Value::String(text) => format!("{text}x").into(),
        Value::Array(_) | Value::Object(_) => return None,
    })
}

/// Whether what was found speaks of a place: by its path, by that of what it is in, or in other words by what it is.
fn names(found: &[Finding], place: &str) -> bool {
    found.iter().any(|finding| match finding {
        Finding::Differs { at, .. } => place.starts_with(at.as_str()) || at.starts_with(place),
        Finding::NotARecord { .. } => true,
        Finding::Format { .. } => place == "/format",
        Finding::Hash { .. } | Finding::NotPinned { .. } => {
            place.starts_with("/procedure") || place.starts_with("/vehicle/sheet")
        }
        Finding::Journal { .. } | Finding::NotPermitted { .. } | Finding::NotReadable { .. } => {
            place.starts_with("/journal")
                || place.starts_with("/procedure")
                || place.starts_with("/vehicle/sheet")
        }
        Finding::Open(_) | Finding::Seal { .. } | Finding::File { .. } => false,
    })
}

#[test]
fn every_value_is_guarded() {
    let whole = whole();
    let places: Vec<String> = places(&whole).into_iter().filter(|place| place != "/seal/sha256").collect();
    assert!(places.len() > 1000, "{}", places.len());
    for place in places.iter().step_by(stride(places.len(), 30)) {
        let mut record = whole.clone();
        let value = record.pointer_mut(place).expect("a place");
        let Some(other) = otherwise(value) else { continue };
        *value = other;
        let found = findings(record);
        assert!(names(&found, place), "{place}: {found:?}");
    }
}

/// A field or an item taken out, and an item that stands twice or changes places with the next.
#[test]
fn nothing_can_be_taken_out_or_put_elsewhere() {
    let whole = whole();
    let places: Vec<String> = places(&whole).into_iter().filter(|place| place != "/seal/sha256").collect();
    for place in places.iter().step_by(stride(places.len(), 30)) {
        let (above, key) = place.rsplit_once('/').expect("a path");
        if is_empty(whole.pointer(place).expect("a place")) {
            continue;
        }
        for deed in 0..3 {
            let mut record = whole.clone();
            match record.pointer_mut(above).expect("what it is in") {
                Value::Object(map) if deed == 0 => drop(map.remove(key)),
                Value::Array(items) => {
                    let at: usize = key.parse().expect("a place in a list");
                    match deed {
                        0 => drop(items.remove(at)),
                        1 => items.insert(at, items[at].clone()),
                        _ if at + 1 < items.len() && items[at] != items[at + 1] => items.swap(at, at + 1),
                        _ => continue,
                    }
                }
                _ => continue,
            }
            let found = findings(record);
            assert!(!found.is_empty(), "{place}, {deed}");
        }
    }
}

/// Entries dropped, doubled, swapped, cut off and put in the place of others. An entry at another time that does not stand
/// elsewhere in the record is the record of a run that could have been so: that it was not, only a signature shows.
#[test]
fn no_entry_can_be_forged() {
    let whole = whole();
    let lines: Vec<String> = serde_json::from_value(whole["journal"].clone()).expect("lines");
    let entries: Vec<(&str, &str)> = lines.iter().map(|line| told(line).expect("an entry")).collect();
    for at in (0..entries.len()).step_by(stride(entries.len(), 8)) {
        for (deed, forged) in forged(&entries, at) {
            if forged == entries {
                continue;
            }
            let mut record = whole.clone();
            record["journal"] = chained(forged.iter().copied()).into();
            let found = findings(record);
            assert!(!found.is_empty(), "entry {}: {deed}", at + 1);
        }
    }
}

type Entries<'l> = Vec<(&'l str, &'l str)>;

fn forged<'l>(entries: &[(&'l str, &'l str)], at: usize) -> Vec<(&'static str, Entries<'l>)> {
    let changed = |change: &dyn Fn(&mut Entries<'l>)| {
        let mut entries = entries.to_vec();
        change(&mut entries);
        entries
    };
    let next = (at + 1) % entries.len();
    vec![
        ("dropped", [&entries[..at], &entries[at + 1..]].concat()),
        ("doubled", changed(&|all| all.insert(at, all[at]))),
        ("swapped", changed(&|all| all.swap(at, next))),
        ("cut off", changed(&|all| all.truncate(at))),
        ("another event", changed(&|all| all[at].1 = all[next].1)),
    ]
}
