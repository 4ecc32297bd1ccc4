//! Two terminals, changed files, a torn line: each is said, none of them loses anything.

use std::fs;
use std::io::Write;

use super::seat::{Seat, Speech};
use super::stage::{Stage, words_of};
use super::walk;

const RUN: [&str; 4] = ["run", "bleed.md", "--vehicle", "vehicle.toml"];

fn stage_with_a_run() -> Stage {
    let stage = Stage::with_small_procedure();
    let ended = stage.bayhand_fed(&RUN, "Robin Vale\nSam Hollis\n");
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    stage
}

#[test]
fn a_second_terminal_is_told_who_has_the_run() {
    let stage = Stage::with_small_procedure();
    let mut first = Seat::at_small_procedure(&stage, Speech::Colour, 80);
    walk::begin(&mut first);
    first.reads("Read and understood?");
    let before = stage.journal_lines();
    for columns in [80, 40] {
        let mut second = Seat::at_small_procedure(&stage, Speech::Colour, columns);
        assert_eq!(second.pty.exit_code(), 4);
        second.sees("has been working on");
        second.sees("go on in the window where it runs, or end it there first");
        assert!(!second.pty.written().contains("Read and understood?"));
    }
    let third = stage.bayhand(&["run", &stage.run_name()]);
    assert_eq!(third.code, Some(4), "{}", third.err);
    assert!(third.err.contains("process "), "{}", third.err);
    assert_eq!(stage.journal_lines(), before);
    walk::support(&mut first);
    first.reads("1.2 Open the tap.");
    assert_eq!(stage.bayhand(&["status"]).code, Some(0), "looking is free");
}

#[test]
fn a_procedure_that_was_changed_since_keeps_its_text() {
    let stage = stage_with_a_run();
    let text = stage.text("bleed.md");
    stage.file("bleed.md", &text.replace("The vehicle stands on stands", "It stands as it should"));
    let mut seat = Seat::at_small_procedure(&stage, Speech::NoColour, 40);
    seat.reads("The procedure was changed since the start: this run keeps to the text it began with.");
    seat.key("Read it?", "y");
    seat.line("Odometer, in km or with its unit:", "187400 km");
    seat.key("Is it for this vehicle?", "y");
    walk::brief(&mut seat);
    seat.key("Read and understood?", "a");
    seat.reads("The vehicle stands on stands");
}

#[test]
fn a_procedure_that_is_gone_does_not_matter_to_its_run() {
    let stage = stage_with_a_run();
    fs::remove_file(stage.path("bleed.md")).expect("it is there");
    let ended = stage.bayhand_fed(&["run", &stage.run_name()], "y\n187400 km\ny\nRV, SH\n");
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    assert!(ended.out.contains("WARNING"), "{}", ended.out);
}

#[test]
fn a_pinned_text_that_was_changed_is_refused() {
    for (file, from, to) in [("procedure.md", "Each pin", "Some pin"), ("vehicle.toml", "10 psi", "1 psi")] {
        let stage = stage_with_a_run();
        let path = stage.run().join(file);
        let text = fs::read_to_string(&path).expect("the pinned text");
        fs::write(&path, text.replace(from, to)).expect("the changed text");
        let before = stage.journal_lines();
        let ended = stage.bayhand(&RUN);
        assert_eq!(ended.code, Some(3), "{file}: {}{}", ended.out, ended.err);
        assert!(
            ended.err.contains(file) && words_of(&ended.err).contains("is not what the run was started with"),
            "{}",
            ended.err
        );
        assert!(words_of(&ended.err).contains("`--new` begins another one beside it"), "{}", ended.err);
        assert_eq!(stage.journal_lines(), before, "and no other run was begun");
    }
}

#[test]
fn a_torn_last_line_is_said_and_the_run_goes_on() {
    let stage = stage_with_a_run();
    let path = stage.run().join("journal.jsonl");
    let mut journal = fs::OpenOptions::new().append(true).open(path).expect("the journal");
    journal.write_all(br#"{"format":1,"seq":4,"time":"2026-"#).expect("half a line");
    drop(journal);
    let mut seat = Seat::at_small_procedure(&stage, Speech::Colour, 80);
    seat.reads("Line 4 of its journal was cut off when it ended; that answer was never acknowledged");
    seat.key("Read it?", "y");
    seat.line("Odometer, in km or with its unit:", "187400 km");
    seat.key("Is it for this vehicle?", "y");
    seat.reads("Pre-job brief:");
    assert_eq!(stage.kinds()[3..], ["resumed", "brief_read", "odometer", "interruption"]);
}

#[test]
fn a_damaged_line_is_refused_and_nothing_is_touched() {
    let stage = stage_with_a_run();
    let path = stage.run().join("journal.jsonl");
    let text = fs::read_to_string(&path).expect("the journal");
    fs::write(&path, text.replace("Robin Vale", "Robin Dale")).expect("the changed journal");
    let before = stage.journal_lines();
    let ended = stage.bayhand(&RUN);
    assert_eq!(ended.code, Some(3), "{}{}", ended.out, ended.err);
    assert!(ended.err.contains("damaged"), "{}", ended.err);
    assert_eq!(stage.journal_lines(), before);
}
