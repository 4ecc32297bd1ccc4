//! Copies in which names or the vehicle's identity are hidden: nothing of them is left, all the rest is the same, and they
//! verify like any record.

use bayhand::record::model::{Judged, Record};
use bayhand::record::text::render;
use bayhand::record::{Hidden, redacted, to_json, verify};
use bayhand::run::Answer;

use super::people::two_people;
use super::same_fields::compare;
use super::support::{Bench, eventful, smooth};

const BOTH: [Hidden; 2] = [Hidden::Names, Hidden::Vehicle];

/// All that a copy says but the text of the procedure, where a part of a name may be a word like any other.
fn said(copy: &Record) -> String {
    let mut copy = copy.clone();
    copy.procedure.text.clear();
    to_json(&copy).to_lowercase()
}

fn holds_none_of(copy: &Record, words: &[&str]) {
    let said = said(copy);
    for word in words {
        let mut parts = said.split(|letter: char| !letter.is_alphanumeric());
        let is_left =
            if word.contains(['-', ' ']) { said.contains(word) } else { parts.any(|part| part == *word) };
        assert!(!is_left, "`{word}` is left");
    }
}

/// A run with names and the vehicle's number in people's own words.
fn talkative() -> Record {
    let mut bench = Bench::new();
    bench.begin();
    bench.give(Answer::Note(
        "Sam held the lamp, and robin (RV) found example-0040-17 on the plate".to_owned(),
    ));
    bench.support().open_line().pressure().flow().clear().close();
    bench.record()
}

#[test]
fn nothing_of_the_names_is_left_and_it_verifies() {
    for record in [smooth(), eventful(), talkative(), two_people()] {
        let copy = redacted(&record, &[Hidden::Names], &[]).unwrap();
        holds_none_of(&copy, &["robin vale", "sam hollis", "robin", "hollis", "rv", "sh"]);
        assert_eq!(verify(&to_json(&copy)), Ok(()));
        assert_eq!(copy.people[0].name, "Person 1");
        assert_eq!(copy.vehicle.identification, record.vehicle.identification);
    }
}

#[test]
fn nothing_of_the_vehicles_identity_is_left_and_it_verifies() {
    let record = talkative();
    let copy = redacted(&record, &[Hidden::Vehicle], &[]).unwrap();
    holds_none_of(&copy, &["example-0040-17", "tarnbeck 40 (invented)\""]);
    assert_eq!(verify(&to_json(&copy)), Ok(()));
    assert_eq!(copy.people, record.people);
    assert_eq!(copy.vehicle.identification.as_deref(), Some("HIDDEN"));
    let notes: Vec<&str> = copy.notes.iter().map(|note| note.text.as_str()).collect();
    assert!(notes.iter().any(|note| note.ends_with("found HIDDEN on the plate")), "{notes:?}");
}

/// What was measured, and how it came out, is what the copy is for.
#[test]
fn what_was_measured_is_the_same() {
    for record in [smooth(), eventful()] {
        let copy = redacted(&record, &BOTH, &[]).unwrap();
        assert_eq!((&copy.result, &copy.outcome), (&record.result, &record.outcome));
        let verdicts = |record: &Record| -> Vec<String> {
            let attempts = record.readings.iter().flat_map(|reading| &reading.attempts);
            // Who judged a nominal value by eye is a name.
            let verdict = |judged: &Judged| (judged.verdict.clone(), judged.distance.clone());
            attempts
                .map(|attempt| format!("{:?} {:?}", attempt.answer, attempt.judged.as_ref().map(verdict)))
                .collect()
        };
        assert_eq!(verdicts(&copy), verdicts(&record));
        assert_eq!(copy.journal.len(), record.journal.len());
        assert_eq!(copy.values, record.values);
    }
}

/// It says so first, as text and as data, and which record it is of.
#[test]
fn it_says_that_it_is_a_copy_and_of_which_record() {
    let record = smooth();
    let copy = redacted(&record, &BOTH, &[]).unwrap();
    let marked = copy.redacted.as_ref().unwrap();
    assert_eq!(
        (marked.of.as_str(), &marked.hidden[..]),
        (record.seal.sha256.as_str(), &["names".to_owned(), "vehicle".to_owned()][..])
    );
    assert_ne!(copy.seal, record.seal);
    let text = render(&copy, 200);
    let seal = &record.seal.sha256;
    let said = format!("REDACTED COPY of the record with the seal {seal}: names and vehicle hidden.");
    assert!(text.lines().take(6).any(|line| line == said), "{text}");
    compare(&copy);
    assert!(verify(&to_json(&copy).replace(&record.seal.sha256, &copy.seal.sha256)).is_err());
}

/// Who has the record shows by this that the copy is one.
#[test]
fn the_same_hidden_again_gives_the_same_copy() {
    let record = eventful();
    let copy = redacted(&record, &BOTH, &[]).unwrap();
    assert_eq!(redacted(&record, &[Hidden::Vehicle, Hidden::Names, Hidden::Names], &[]).unwrap(), copy);
    let refused = redacted(&copy, &BOTH, &[]).unwrap_err().to_string();
    assert!(refused.contains("is a redacted copy already"), "{refused}");
}

/// Remarks in a vehicle sheet may say anything, and nothing rests on them; a `#` in quotes is none.
#[test]
fn the_remarks_of_a_sheet_are_left_out() {
    let sheet = "# Sam's, plate XY 12\nformat = 1\nvehicle = \"Van #2\" # the green one\nidentification = \"E-1\"\nodometer_unit = \"km\"\n";
    let record = Bench::with_sheet(sheet).record();
    let copy = redacted(&record, &[Hidden::Vehicle], &[]).unwrap();
    assert_eq!(
        copy.vehicle.sheet.unwrap().text,
        "format = 1\nvehicle = \"vehicle hidden\"\nidentification = \"HIDDEN\"\nodometer_unit = \"km\"\n"
    );
}

/// Somebody is called what the procedure calls a reading: then there is no copy, rather than one that says something else.
#[test]
fn a_name_that_the_run_rests_on_is_said() {
    let mut bench = Bench::new();
    bench.give(Answer::Person("Supply".to_owned()));
    let refused = redacted(&bench.record(), &[Hidden::Names], &[]).unwrap_err().to_string();
    assert!(
        refused.starts_with("no copy was made: a name in it is also a word that the run rests on"),
        "{refused}"
    );
}

/// Somebody who agreed to a value and took no part in the run.
#[test]
fn other_words_are_hidden_when_they_are_named() {
    let sheet = include_str!("../cases/record/vehicle.toml").replace("page 7-36", "as Ada Lindow says");
    let record = Bench::with_sheet(&sheet).record();
    let copy = redacted(&record, &BOTH, &[]).unwrap();
    assert!(to_json(&copy).contains("Ada Lindow"), "nobody can know that");
    let copy = redacted(&record, &BOTH, &["Ada Lindow".to_owned()]).unwrap();
    holds_none_of(&copy, &["ada lindow"]);
    assert_eq!(verify(&to_json(&copy)), Ok(()));
    assert_eq!(copy.redacted.unwrap().hidden, ["names", "vehicle", "other words"]);
}
