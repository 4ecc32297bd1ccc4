//! What was found before an adjustment, and what is left after it.

use bayhand::run::{Answer, Ask, FlowAnswer, Judgement, Refusal};

use super::drive::{Drive, name};

const IDLE: &str = "[readings.idle_before]\nwhat = \"idle speed\"\nunit = \"rpm\"\nmin = \"700 rpm\"\nmax = \"800 rpm\"\n\
as_found = true\n[readings.idle]\nwhat = \"idle speed\"\nunit = \"rpm\"\nmin = \"700 rpm\"\nmax = \"800 rpm\"\n\
as_left = \"idle_before\"\n";
const BODY: &str =
    "## Idle\n\n1. Read [idle_before].\n2. Turn the screw.\n3. Read [idle].\n\n## Close\n\n1. Wipe.\n";

fn restart() -> Answer {
    Answer::Flow(FlowAnswer::Restart { reason: "the engine was cold".to_owned() })
}

#[test]
fn what_was_found_may_fail_and_what_is_left_may_not() {
    let mut drive = Drive::of(IDLE, BODY);
    drive.enter("950 rpm");
    let judged = drive.view().judge(&name("idle_before")).unwrap();
    assert!(judged.judgement.to_string().starts_with("as found: fail"), "{}", judged.judgement);
    assert!(matches!(judged.judgement, Judgement::Found(_)));
    assert_eq!(drive.label(), "1.2", "a finding holds nothing up");
    drive.done();
    drive.enter("820 rpm");
    assert_eq!(drive.ask(), Ask::Failed(name("idle")));
    drive.take(Answer::Again { reason: "turned it further".to_owned() });
    drive.enter("760 rpm");
    assert_eq!(drive.label(), "2.1");
    assert!(drive.state.deviations.is_empty());
}

#[test]
fn what_was_found_is_corrected_and_never_taken_again_once_the_work_has_gone_on() {
    let change = "[values.change]\nwhat = \"change\"\nunit = \"rpm\"\nformula = 'idle_before - 700 rpm'\nmin = \"50 rpm\"\n";
    let body = BODY.replace("3. Read [idle].", "3. It was off by [change].\n4. Read [idle].");
    let mut drive = Drive::of(&format!("{IDLE}{change}"), &body);
    drive.enter("720 rpm");
    drive.done();
    assert_eq!(drive.ask(), Ask::Failed(name("change")));
    let again = Answer::Again { reason: "it can be read anew".to_owned() };
    let refusal = drive.answer(again).unwrap_err();
    assert!(matches!(refusal, Refusal::AsFoundLocked { .. }), "{refusal}");
    assert!(refusal.to_string().contains("correct it with a reason"), "{refusal}");
    let correction = Answer::Correct {
        entry: None,
        reading: name("idle_before"),
        text: "780 rpm".to_owned(),
        reason: "read the wrong scale".to_owned(),
    };
    drive.take(correction);
    assert_eq!(drive.state.attempts(&name("idle_before")), 2, "the entry before it is kept");
    assert_ne!(drive.ask(), Ask::Failed(name("change")));
}

#[test]
fn a_section_begun_anew_does_not_ask_for_what_was_found_again() {
    let mut drive = Drive::of(IDLE, BODY);
    drive.enter("950 rpm");
    drive.done();
    drive.take(restart());
    assert_eq!(drive.label(), "1.2", "found is found; the screw is turned anew");
    drive.done();
    drive.enter("760 rpm");
    assert_eq!(drive.state.attempts(&name("idle_before")), 1);
    assert_eq!(drive.label(), "2.1");
}

#[test]
fn an_adjustment_can_rest_on_what_was_found() {
    let tables = format!("{IDLE}[conditions.off]\nfailed = \"idle_before\"\n");
    let body = BODY.replace("2. Turn", "2. [off] Turn");
    for (found, next) in [("950 rpm", "1.2"), ("750 rpm", "idle")] {
        let mut drive = Drive::of(&tables, &body);
        drive.enter(found);
        assert_eq!(drive.label(), next, "{found}");
    }
}

#[test]
fn each_pass_of_a_repeat_finds_anew_and_keeps_that_when_it_is_begun_anew() {
    let tables = format!("{IDLE}[repeats.bank]\nwhat = \"the bank\"\neach = [\"left\", \"right\"]\n");
    let body = BODY.replace("## Idle", "## Idle [bank]");
    let mut drive = Drive::of(&tables, &body);
    drive.enter("950 rpm");
    drive.done();
    drive.take(restart());
    assert_eq!(drive.label(), "1.2");
    drive.done();
    drive.enter("760 rpm");
    drive.take(Answer::Flow(FlowAnswer::Counts));
    assert_eq!(drive.ask(), Ask::Reading(name("idle_before")), "the right bank is read as found too");
}

#[test]
fn what_is_read_as_found_is_not_put_off() {
    let mut drive = Drive::of(IDLE, BODY);
    let before = drive.step("1.3");
    let refusal = drive.answer(Answer::Defer { before, reason: "engine cold".to_owned() }).unwrap_err();
    assert!(refusal.to_string().contains("idle speed is read as it was found"), "{refusal}");
}
