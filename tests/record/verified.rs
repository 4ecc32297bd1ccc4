//! Record verification: any change is found, and an edited summary whose seal was made anew.

use bayhand::record::model::Record;
use bayhand::record::{Finding, seal_of, to_json, verified, verified_with, verify};
use bayhand::session::Books;
use serde_json::Value;

use super::support::{eventful, smooth};

fn findings(json: &str) -> Vec<Finding> {
    verify(json).unwrap_err()
}

/// The record after an edit by somebody who knows how to make the seal anew.
fn forged(record: &Record, edit: impl Fn(&mut Value)) -> String {
    let mut value = serde_json::to_value(record).unwrap();
    edit(&mut value);
    let seal = seal_of(&value).unwrap();
    value["seal"]["sha256"] = Value::String(seal);
    serde_json::to_string(&value).unwrap()
}

#[test]
fn a_record_as_it_was_built_is_verified() {
    assert_eq!(verify(&to_json(&smooth())), Ok(()));
    assert_eq!(verify(&to_json(&eventful())), Ok(()));
}

#[test]
fn another_layout_of_the_same_data_is_verified() {
    let value = serde_json::to_value(smooth()).unwrap();
    assert_eq!(verify(&serde_json::to_string(&value).unwrap()), Ok(()));
}

/// What was read for one record is used for the next only where its texts are the same, and it is found out each time
/// whether they are.
#[test]
fn a_record_after_others_is_verified_as_it_would_be_alone() {
    let (smooth, eventful) = (smooth(), eventful());
    let other_procedure = |value: &mut Value| {
        let text = value["procedure"]["text"].as_str().unwrap().replace("psi", "kPa");
        value["procedure"]["text"] = Value::String(text);
    };
    let other_sheet = |value: &mut Value| {
        let text = format!("{}\n# more\n", value["vehicle"]["sheet"]["text"].as_str().unwrap());
        value["vehicle"]["sheet"]["text"] = Value::String(text);
    };
    let jsons = [
        to_json(&smooth),
        forged(&smooth, other_procedure),
        to_json(&eventful),
        forged(&eventful, other_sheet),
        to_json(&smooth),
    ];
    let mut books = Books::default();
    for (place, json) in jsons.iter().enumerate() {
        let with_others = verified_with(json, &mut books);
        assert_eq!(with_others.is_ok(), place % 2 == 0, "{place}");
        assert_eq!(with_others, verified(json), "{place}");
    }
}

/// Bits in turn; about every 800th in the usual run, all of them with `BAYHAND_ALL_FLIPS=1`.
#[test]
fn any_flipped_bit_is_found() {
    let json = to_json(&eventful()).into_bytes();
    let stride = if std::env::var_os("BAYHAND_ALL_FLIPS").is_some() { 1 } else { 787 };
    for place in (0..8 * json.len()).step_by(stride) {
        let (byte, bit) = (place / 8, place % 8);
        let mut flipped = json.clone();
        flipped[byte] ^= 1 << bit;
        let found = std::str::from_utf8(&flipped).is_err()
            || verify(std::str::from_utf8(&flipped).unwrap_or_default()).is_err();
        assert!(
            found,
            "byte {byte}, bit {bit}: {}",
            String::from_utf8_lossy(&json[byte.saturating_sub(30)..json.len().min(byte + 10)])
        );
    }
}

#[test]
fn a_key_that_stands_twice_is_refused() {
    let json = to_json(&smooth()).replacen("\"result\"", "\"run\": \"other\",\n  \"result\"", 1);
    assert!(matches!(&findings(&json)[0], Finding::NotARecord { why } if why.contains("twice")));
}

#[test]
fn an_edited_summary_is_found_although_its_seal_is_right() {
    let record = eventful();
    let json = forged(&record, |value| value["deviations"]["count"] = 0.into());
    let expected = Finding::Differs {
        at: "/deviations/count".to_owned(),
        entry: None,
        says: "0".to_owned(),
        gives: "3".to_owned(),
    };
    assert!(findings(&json).contains(&expected));
    let json = forged(&record, |value| {
        value["readings"][1]["attempts"][0]["who"][0] = "Somebody".into();
    });
    let at = "/readings/1/attempts/0/who/0";
    assert!(
        findings(&json)
            .iter()
            .any(|found| matches!(found, Finding::Differs { at: place, .. } if place == at))
    );
}

#[test]
fn an_edited_procedure_is_found_although_hash_and_seal_are_right() {
    let json = forged(&smooth(), |value| {
        let text = value["procedure"]["text"].as_str().unwrap().replace("0.6 * supply", "0.1 * supply");
        value["procedure"]["sha256"] = bayhand::journal::Digest::of(text.as_bytes()).to_string().into();
        value["procedure"]["text"] = text.into();
    });
    assert!(findings(&json).contains(&Finding::NotPinned { file: "procedure.md".to_owned() }));
}

#[test]
fn a_text_whose_hash_is_another_is_found() {
    let json = forged(&smooth(), |value| {
        value["vehicle"]["sheet"]["sha256"] = "00".into();
    });
    assert!(findings(&json).contains(&Finding::Hash { text: "vehicle sheet".to_owned() }));
}

#[test]
fn a_changed_journal_is_found_at_its_entry() {
    let json = forged(&smooth(), |value| {
        let line = value["journal"][3].as_str().unwrap().replace("152 300 mi", "102 300 mi");
        value["journal"][3] = line.into();
    });
    let found = findings(&json);
    assert!(matches!(found[0], Finding::Journal { line: 4, .. }), "{found:?}");
}

#[test]
fn a_dropped_entry_is_found() {
    let json = forged(&smooth(), |value| {
        value["journal"].as_array_mut().unwrap().remove(5);
    });
    let found = findings(&json);
    assert!(matches!(found[0], Finding::Journal { .. }), "{found:?}");
}

#[test]
fn a_journal_cut_off_at_the_end_is_found() {
    let json = forged(&smooth(), |value| {
        value["journal"].as_array_mut().unwrap().pop();
    });
    assert!(
        findings(&json).iter().any(|found| matches!(found, Finding::Differs { at, .. } if at == "/closed"))
    );
}

/// A field that is left out where it is empty, put in with something made up.
#[test]
fn something_added_to_the_summary_is_found() {
    let json = forged(&smooth(), |value| {
        value["left_in_force"] = serde_json::json!([{
            "what": "vehicle on stands", "hold": "supported", "since": {"entry": 12, "at": "2026-11-21T18:34:00.000+01:00"},
            "by": "Robin Vale", "lapsed": null,
        }]);
    });
    let found = findings(&json);
    assert!(matches!(&found[..], [Finding::Differs { at, .. }] if at == "/left_in_force"), "{found:?}");
}

#[test]
fn a_record_of_another_format_is_refused_by_its_number() {
    let json = forged(&smooth(), |value| value["format"] = 2.into());
    assert_eq!(findings(&json), [Finding::Format { found: 2 }]);
}

/// A field taken out is named.
#[test]
fn a_field_taken_out_is_named() {
    for field in ["result", "people", "procedure", "began", "readings", "steps", "journal"] {
        let json = forged(&smooth(), |value| {
            value.as_object_mut().unwrap().remove(field);
        });
        let found = findings(&json);
        assert!(found.iter().any(|found| found.to_string().contains(field)), "{field}: {found:?}");
    }
}

#[test]
fn what_is_no_record_is_refused_with_a_reason() {
    for text in ["", "{}", "[]", "null", "{\"format\": 1}", "RECORD\n"] {
        assert!(matches!(findings(text).last(), Some(Finding::NotARecord { .. })), "{text}");
    }
}
