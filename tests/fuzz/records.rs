//! Records of strangers: refused with a reason, or verified, and then every form of it can be made.

use bayhand::print::{html, markdown};
use bayhand::record::model::Record;
use bayhand::record::report::page;
use bayhand::record::text::render;
use bayhand::record::{Hidden, entries_of, redacted, seal_of, to_csv, to_json, verified};
use serde_json::Value;

use super::chain::{chained, told};
use super::journals::named;
use super::text;

/// The text as it stands, and sealed and chained anew.
pub fn record(bytes: &[u8]) {
    let text = &*text(bytes);
    entries_of(text);
    holds(text);
    let Ok(mut value) = serde_json::from_str::<Value>(text) else { return };
    if let Ok(record) = serde_json::from_value::<Record>(value.clone()) {
        is_printed(&record);
    }
    if chain_anew(&mut value).is_some() {
        holds(&value.to_string());
    }
}

fn chain_anew(value: &mut Value) -> Option<()> {
    let lines: Vec<String> = serde_json::from_value(value.get("journal")?.clone()).ok()?;
    let told = lines.iter().map(|line| told(line)).collect::<Option<Vec<_>>>()?;
    *value.get_mut("journal")? = chained(told).into();
    let seal = seal_of(value).ok()?;
    *value.pointer_mut("/seal/sha256")? = seal.into();
    Some(())
}

fn holds(json: &str) {
    match verified(json) {
        Ok(sound) => {
            let again = to_json(&sound.record);
            assert_eq!(verified(&again).expect("written again").record, sound.record);
            is_printed(&sound.record);
            if let Ok(copy) = redacted(&sound.record, &Hidden::ALL, &[]) {
                verified(&to_json(&copy)).expect("a redacted copy is a record");
            }
        }
        Err(findings) => named(&findings, json.len()),
    }
}

/// Every form of it can be made, at any width.
fn is_printed(record: &Record) {
    let page = page(record);
    assert!(!html(&page).is_empty() && !markdown(&page).is_empty());
    assert!(!render(record, 40).is_empty() && !render(record, 80).is_empty());
    assert!(!to_csv(record).is_empty() && !to_json(record).is_empty());
}
