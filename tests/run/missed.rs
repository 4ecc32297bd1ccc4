//! A wait that was missed: the path that the author wrote for it, or a deviation.

use bayhand::run::{Answer, Ask, Disposition, FlowAnswer, Status};

use super::drive::Drive;

const GLUE: &str = "[waits.glue]\nwhat = \"the glue stays soft\"\nat_most = \"10 min\"\n";
const PATH: &str = "[conditions.set]\nmissed = \"glue\"\nwhy = \"it does not hold any more\"\n";
const BODY: &str = "1. Spread the glue: [glue] begins.\n2. Press the parts together within [glue].\n\
3. [set] Scrape it off.\n4. Wipe.\n";

fn missed() -> Drive {
    let mut drive = Drive::of(&format!("{GLUE}{PATH}"), BODY);
    drive.done();
    drive.pass(11);
    drive
}

#[test]
fn the_authored_path_is_taken_and_the_late_step_is_not_applicable() {
    let mut drive = missed();
    assert!(matches!(drive.ask(), Ask::Late { .. }));
    assert!(drive.answer(Answer::Done).is_err());
    drive.take(Answer::Flow(FlowAnswer::Missed));
    assert_eq!(drive.label(), "1.3");
    let late = drive.book.procedure.step(drive.step("1.2")).unwrap();
    let why = "the time was missed: the glue stays soft".to_owned();
    assert_eq!(drive.view().status(late, None), Status::NotApplicable(why));
    drive.done();
    assert_eq!(drive.label(), "1.4");
    assert!(drive.state.deviations.is_empty(), "the procedure foresees it");
}

#[test]
fn in_time_the_path_is_not_applicable() {
    let mut drive = Drive::of(&format!("{GLUE}{PATH}"), BODY);
    drive.done();
    drive.pass(9);
    drive.done();
    assert_eq!(drive.label(), "1.4");
    assert_eq!(drive.status("1.3"), "not applicable");
}

#[test]
fn the_path_can_be_left_for_a_deviation() {
    let mut drive = missed();
    drive.take(Answer::Accept { disposition: Disposition::UseAsIs, reason: "still soft".to_owned() });
    assert_eq!(drive.label(), "1.2");
    drive.done();
    assert_eq!((drive.label(), drive.state.deviations.len()), ("1.4".to_owned(), 1));
}

#[test]
fn without_a_path_it_is_a_deviation() {
    let mut drive =
        Drive::of(GLUE, "1. Spread the glue: [glue] begins.\n2. Press within [glue].\n3. Wipe.\n");
    drive.done();
    drive.pass(11);
    assert!(drive.answer(Answer::Flow(FlowAnswer::Missed)).is_err());
    drive.take(Answer::Accept { disposition: Disposition::Rework, reason: "fresh glue".to_owned() });
    assert_eq!(drive.state.deviations.len(), 1);
}

/// In each pass anew: a time that was missed in one pass is not missed in the next.
#[test]
fn each_pass_has_its_own_time() {
    let repeat = "[repeats.sides]\nwhat = \"both sides\"\neach = [\"left\", \"right\"]\n";
    let body = "1. Mix the glue.\n\n## Side [sides]\n\n1. Spread the glue: [glue] begins.\n\
2. Press the parts together within [glue].\n3. [set] Scrape it off.\n\n## End\n\n1. Wipe.\n";
    let mut drive = Drive::of(&format!("{GLUE}{PATH}{repeat}"), body);
    drive.done();
    drive.done();
    drive.pass(11);
    drive.take(Answer::Flow(FlowAnswer::Missed));
    assert_eq!(drive.label(), "2.3");
    drive.done();
    drive.take(Answer::Flow(FlowAnswer::Counts));
    assert_eq!(drive.label(), "2.1");
    assert!(drive.view().running_waits().is_empty(), "its clock is not started yet");
    drive.done();
    drive.pass(9);
    assert_eq!(drive.label(), "2.2");
    drive.done();
    assert_eq!(drive.status("2.3"), "not applicable");
    assert_eq!(drive.label(), "sides");
}

/// A step that was done in time stays done when a later one comes too late.
#[test]
fn only_the_late_step_falls_away() {
    let body = "1. Spread the glue: [glue] begins.\n2. Press one side within [glue].\n\
3. Press the other side within [glue].\n4. [set] Scrape it off.\n";
    let mut drive = Drive::of(&format!("{GLUE}{PATH}"), body);
    drive.done();
    drive.done();
    drive.pass(11);
    drive.take(Answer::Flow(FlowAnswer::Missed));
    assert_eq!((drive.status("1.2"), drive.status("1.3")), ("done", "not applicable"));
    assert_eq!(drive.label(), "1.4");
}

/// Where another condition takes the only step out that needs the time, nothing is missed.
#[test]
fn a_step_that_does_not_apply_misses_nothing() {
    let tables = format!(
        "{GLUE}{PATH}[readings.look]\nwhat = \"look\"\nchoices = [\"dry\", \"wet\"]\ninformation_only = true\n\
[conditions.dry]\nif = 'look == \"dry\"'\n"
    );
    let body = "1. Look: [look].\n2. Spread the glue: [glue] begins.\n3. [dry] Press within [glue].\n\
4. [set] Scrape it off.\n5. Wipe.\n";
    let mut drive = Drive::of(&tables, body);
    drive.enter("wet");
    drive.done();
    drive.pass(30);
    assert_eq!(drive.label(), "1.5");
}

/// Before it is known whether the time was missed, nothing of the path for that is asked.
#[test]
fn what_needs_the_time_is_not_put_off_past_the_path() {
    let mut drive = Drive::of(&format!("{GLUE}{PATH}"), BODY);
    drive.done();
    let defer = |before| Answer::Defer { before, reason: "no clamp".to_owned() };
    let refusal = drive.answer(defer(drive.step("1.4"))).unwrap_err();
    assert!(refusal.to_string().contains("step 1.3"), "{refusal}");
}
