//! Waits: from one step to another, by the clock, across the end of a process.

use bayhand::run::{Answer, Ask, Disposition, Input};

use super::drive::{Drive, name};

const SOAK: &str = "[waits.soak]\nwhat = \"solvent soaks\"\nat_least = \"10 min\"\nat_most = \"30 min\"\n";
const BODY: &str = "1. Fill: [soak] begins.\n2. Lay out the rags.\n3. Drain after [soak].\n4. Wipe.\n";

fn soaking() -> Drive {
    let mut drive = Drive::of(SOAK, BODY);
    drive.done();
    drive.done();
    drive
}

#[test]
fn the_step_that_needs_it_waits_while_others_go_on() {
    let mut drive = soaking();
    assert!(matches!(drive.ask(), Ask::Wait { .. }));
    drive.pass(9);
    assert!(drive.answer(Answer::Done).is_err());
    drive.pass(1);
    assert_eq!(drive.label(), "1.3");
    drive.done();
    assert_eq!(drive.label(), "1.4");
}

#[test]
fn it_runs_on_while_the_process_is_dead() {
    let mut drive = soaking();
    drive.pass(12);
    drive.input(Input::Resume).unwrap();
    drive.take(Answer::AcceptBrief);
    assert_eq!(drive.ask(), Ask::Do);
    assert_eq!(drive.label(), "1.3");
}

#[test]
fn too_late_is_a_deviation() {
    let mut drive = soaking();
    drive.pass(31);
    assert!(matches!(drive.ask(), Ask::Late { .. }));
    assert!(drive.answer(Answer::Done).is_err());
    drive.take(Answer::Accept { disposition: Disposition::Rework, reason: "filled fresh".to_owned() });
    drive.done();
    assert_eq!(drive.label(), "1.4");
    assert_eq!(drive.state.deviations.len(), 1);
}

#[test]
fn the_clock_starts_when_the_step_is_done() {
    let mut drive = Drive::of(SOAK, BODY);
    drive.pass(60);
    drive.done();
    assert_eq!(drive.view().wait_began(&name("soak")), Some(drive.now.clone()));
}
