//! Journals made up by somebody who can make the chain and the seal anew: what could not have happened is named by its
//! entry.

use bayhand::journal::Pinned;
use bayhand::record::{Finding, verified_run};
use bayhand::session::Books;
use serde_json::Value;

use super::support::{PROCEDURE, SHEET, eventful, smooth};
use crate::fuzz::chain::{chained, told};

fn findings(lines: &[String]) -> Vec<Finding> {
    let pinned =
        Pinned { procedure: PROCEDURE.to_owned(), linked: Vec::new(), vehicle: Some(SHEET.to_owned()) };
    verified_run(lines, &pinned, &mut Books::default()).map(drop).expect_err("it is forged")
}

/// The lines as they would stand if this is what had happened: numbered and chained anew.
fn anew(lines: &[String]) -> Vec<String> {
    chained(lines.iter().map(|line| told(line).expect("a line")))
}

fn kind(line: &str) -> String {
    let line: Value = serde_json::from_str(line).expect("JSON");
    crate::session::stage::kind(&line["event"]["what"])
}

/// Where the first entry of a kind stands, from 1.
fn first(lines: &[String], of: &str) -> usize {
    lines.iter().position(|line| kind(line) == of).expect("one of this kind") + 1
}

fn with_event(line: &str, event: &str) -> String {
    let (before, _) = line.split_once("\"event\":").expect("an event");
    format!("{before}\"event\":{event}}}")
}

/// The entry at which what cannot have happened is found.
fn named(lines: &[String]) -> usize {
    match findings(&anew(lines))[..] {
        [Finding::NotPermitted { entry, .. }] => usize::try_from(entry).expect("a number of an entry"),
        ref other => panic!("{other:?}"),
    }
}

#[test]
fn nothing_is_forged_by_numbering_anew_alone() {
    let lines = smooth().journal;
    assert_eq!(anew(&lines), lines);
}

/// All of a kind at once: the first thing that came after them could not have come.
#[test]
fn what_was_said_for_safety_cannot_be_taken_out() {
    for record in [smooth(), eventful()] {
        for of in ["confirmed", "acknowledged", "released"] {
            let without: Vec<String> =
                record.journal.iter().filter(|line| kind(line) != of).cloned().collect();
            assert!(without.len() < record.journal.len());
            assert_eq!(named(&without), first(&record.journal, of), "without {of}");
        }
    }
}

/// Each entry in turn taken out, but those that nothing rests on: a remark, a disturbance after which all was verified.
#[test]
fn an_entry_that_others_rest_on_cannot_be_taken_out() {
    let lines = smooth().journal;
    // Without its last entry a run is sound and not closed: that, the sealed record beside it shows.
    for at in 1..lines.len() - 1 {
        let mut without = lines.clone();
        let gone = without.remove(at);
        let found = findings(&anew(&without));
        let later = matches!(found[..], [Finding::NotPermitted { entry, .. }] if entry > at as u64);
        assert!(later || matches!(found[..], [Finding::NotReadable { .. }]), "without {gone}: {found:?}");
    }
}

/// Who is there and what the odometer says can be said in either order.
#[test]
fn two_entries_cannot_change_places() {
    let lines = smooth().journal;
    let is_at_the_start = |line: &String| ["person", "odometer"].contains(&&*kind(line));
    for at in (1..lines.len() - 1).filter(|at| !lines[*at..*at + 2].iter().all(is_at_the_start)) {
        let mut swapped = lines.clone();
        swapped.swap(at, at + 1);
        let entry = named(&swapped);
        assert!(entry == at + 1 || entry == at + 2, "{} and {}: {entry}", at + 1, at + 2);
    }
}

#[test]
fn an_entry_cannot_come_twice() {
    let lines = smooth().journal;
    for of in ["person", "confirmed", "done", "reading", "closed"] {
        let at = first(&lines, of);
        let mut doubled = lines.clone();
        doubled.insert(at, lines[at - 1].clone());
        assert_eq!(named(&doubled), at + 1, "{of} twice");
    }
}

/// The text that was typed says 30 psi: the number that stands beside it is worked out from it again.
#[test]
fn a_stored_number_unlike_its_text_is_found() {
    let mut lines = smooth().journal;
    let is_supply = |line: &String| line.contains(r#""name":"supply""#);
    let at = lines.iter().position(is_supply).expect("the supply") + 1;
    let forged = lines[at - 1].replace(r#""number":"30""#, r#""number":"60""#);
    assert_ne!(forged, lines[at - 1]);
    lines[at - 1] = forged;
    assert_eq!(named(&lines), at);
}

#[test]
fn a_run_cannot_be_closed_in_the_middle() {
    let lines = smooth().journal;
    let closed = lines.last().expect("the last").split_once("\"event\":").expect("an event").1;
    let closed = &closed[..closed.len() - 1];
    for at in [3, lines.len() / 2, lines.len() - 2] {
        let mut cut = lines[..=at].to_vec();
        cut[at] = with_event(&cut[at], closed);
        assert_eq!(named(&cut), at + 1);
    }
}

#[test]
fn a_step_cannot_be_done_before_its_hold_point() {
    let mut lines = smooth().journal;
    let at = first(&lines, "confirmed");
    lines[at - 1] = with_event(&lines[at - 1], r#"{"at":"1.2","what":{"done":{"step":1}}}"#);
    assert_eq!(named(&lines), at);
}

/// An entry that speaks of something that the procedure does not have.
#[test]
fn a_made_up_name_is_refused_and_nothing_panics() {
    let lines = smooth().journal;
    for event in [
        r#"{"what":{"released":{"hold":"nowhere","role":"nobody"}}}"#,
        r#"{"at":"1.2","what":{"done":{"step":9999}}}"#,
        r#"{"at":"9.9","what":{"done":{"step":1}}}"#,
        r#"{"what":{"disposed":{"deviation":7000,"disposition":"use_as_is","reason":"x"}}}"#,
        r#"{"what":{"confirmed":{"hold":"supported","item":4000}}}"#,
        r#"{"what":{"correction":{"name":"supply","entry":18446744073709551615,"value":{"text":"x"},"reason":"x"}}}"#,
    ] {
        for at in [4, 9, 14, lines.len() - 2] {
            let mut forged = lines.clone();
            forged[at] = with_event(&forged[at], event);
            assert!(!findings(&anew(&forged)).is_empty());
        }
    }
}
