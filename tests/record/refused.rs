//! The record of a run of which anything is open says so first, and what.

use bayhand::record::model::NotFinished;
use bayhand::record::text::render;
use bayhand::record::{to_json, verify};
use bayhand::run::{Answer, Ask, Input, Leave};

use super::same_fields::compare;
use super::support::Bench;

fn open_of(bench: &Bench) -> NotFinished {
    let record = bench.record();
    assert_eq!(record.closed, None);
    assert!(record.result.starts_with("not finished: "), "{}", record.result);
    assert_eq!(verify(&to_json(&record)), Ok(()));
    compare(&record);
    record.not_finished.unwrap()
}

fn has(open: &NotFinished, words: &str) -> bool {
    open.open.iter().any(|item| item == words)
}

#[test]
fn while_a_step_is_open() {
    let mut bench = Bench::new();
    bench.begin().support().open_line();
    let open = open_of(&bench);
    assert!(has(&open, "step 2.1 is current"), "{:?}", open.open);
    assert!(!open.open.iter().any(|item| item.starts_with("step 1.2 ")), "{:?}", open.open);
}

#[test]
fn while_a_hold_point_is_open() {
    let mut bench = Bench::new();
    bench.begin().support().open_line().pressure().flow();
    let open = open_of(&bench);
    assert!(has(&open, "hold point not released: Tools clear, people clear"), "{:?}", open.open);
    assert_eq!(open.steps_open, 1);
}

#[test]
fn while_a_protection_is_in_force() {
    let mut bench = Bench::new();
    bench.begin().support();
    let [protection] = &open_of(&bench).protections[..] else { panic!("one protection") };
    assert_eq!(protection.what, "vehicle on stands");
    assert_eq!((protection.by.as_str(), protection.since.entry), ("Robin Vale and Sam Hollis", 12));
    bench.open_line().pressure().flow().clear();
    assert!(open_of(&bench).protections.is_empty());
}

#[test]
fn while_a_deviation_has_no_disposition() {
    let mut bench = Bench::new();
    bench.begin().support().open_line();
    bench.give(Answer::NotApplicable { reason: "no supply here".to_owned() });
    assert!(has(&open_of(&bench), "deviation 1 has no disposition: no supply here"));
    assert_eq!(bench.record().deviations.all[0].disposition, None);
}

#[test]
fn while_the_run_is_not_closed() {
    let mut bench = Bench::new();
    bench.begin().support().open_line().pressure().flow().clear();
    assert_eq!(bench.ask(), Ask::Close);
    assert_eq!(open_of(&bench).steps_open, 0);
    bench.close();
    let record = bench.record();
    assert!(record.closed.is_some() && record.not_finished.is_none());
    assert_eq!(record.result, "completed without deviation");
}

/// How it was left, why, what comes first, what protects: all of it before anything else.
#[test]
fn a_stopped_run_says_how_it_was_left() {
    let mut bench = Bench::new();
    bench.begin().support().open_line().typed("30 psi");
    bench.leave(Leave::Stop, "fuel on the floor", "line open, port capped");
    let record = bench.record();
    let open = open_of(&bench);
    assert_eq!((open.how.as_str(), open.reason.as_deref()), ("stopped", Some("fuel on the floor")));
    assert_eq!(open.left.as_deref(), Some("line open, port capped"));
    let first = "not finished: stopped 2026-11-21 18:3".to_owned();
    assert!(record.result.starts_with(&first), "{}", record.result);
    assert!(
        record.result.contains(&format!(", fuel on the floor; {} steps open", open.steps_open)),
        "{}",
        record.result
    );
    let lapsed = open.protections[0].lapsed.as_deref();
    assert_eq!(lapsed, Some("the job was stopped: fuel on the floor"));
    let text = render(&record, 40);
    assert!(text.starts_with("RECORD, NOT FINISHED\n"), "{text}");
    bench.take(Input::Resume);
    assert_eq!(open_of(&bench).how, "stopped", "while the brief is not accepted");
}
