//! The record as text, beside the text that is expected. `BAYHAND_UPDATE=1` writes the expected text anew.

use std::path::Path;

use bayhand::record::model::Record;
use bayhand::record::text::render;

use super::support::{eventful, smooth};

pub fn expect(name: &str, record: &Record, width: usize) {
    let text = render(record, width);
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/record");
    let path = folder.join(format!("{name}.{width}.txt"));
    if std::env::var_os("BAYHAND_UPDATE").is_some() {
        std::fs::write(&path, &text).unwrap();
    }
    let expected = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(text == expected, "{} differs from:\n{text}", path.display());
}

#[test]
fn a_run_without_a_hitch_at_both_widths() {
    let record = smooth();
    expect("smooth", &record, 80);
    expect("smooth", &record, 40);
}

#[test]
fn an_eventful_run_at_both_widths() {
    let record = eventful();
    expect("eventful", &record, 80);
    expect("eventful", &record, 40);
}

#[test]
fn no_line_is_wider_than_the_page() {
    for width in [40, 80] {
        let text = render(&eventful(), width);
        let widest = text.lines().max_by_key(|line| line.chars().count()).unwrap();
        assert!(widest.chars().count() <= width, "{widest}");
    }
}

/// The count stands in the first 20 lines even when it is zero.
#[test]
fn the_number_of_deviations_stands_in_the_first_lines() {
    for width in [40, 80] {
        for (record, count) in [(smooth(), 0), (eventful(), 3)] {
            let text = render(&record, width);
            let mut first = text.lines().take(20);
            assert!(first.any(|line| line == format!("Deviations: {count}")), "{text}");
        }
    }
}

#[test]
fn answers_from_a_file_are_named_before_anything_else() {
    let text = render(&eventful(), 80);
    let place = text.find("ANSWERED FROM A FILE").unwrap();
    assert!(place < text.find("Result:").unwrap());
    assert!(!render(&smooth(), 80).contains("ANSWERED FROM"));
}

/// A text in the record may not reach the terminal's control codes.
#[test]
fn control_characters_are_made_visible() {
    let mut record = smooth();
    record.notes.push(bayhand::record::model::Note {
        kind: "note".to_owned(),
        text: "red \u{1b}[31m".to_owned(),
        when: record.closed.clone().unwrap(),
    });
    let text = render(&record, 80);
    assert!(!text.contains('\u{1b}'));
    assert!(text.contains("red ␛[31m"));
}
