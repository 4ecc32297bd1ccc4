//! Steps that are put off: they come back before a step, before a hold point, at the end of a section, and block it.

use bayhand::procedure::SectionId;
use bayhand::run::{Answer, Ask, Before, FlowAnswer, FlowAsk, InterruptionAnswer, Refusal};

use super::drive::{Drive, name};

const TABLES: &str = "[holds.lowering]\nwhat = \"Lowering\"\nconfirm = [\"clear\"]\nrelease = \"lead\"\n";

/// Deferring step 9 "before lowering" stops the lowering gate until it is done.
#[test]
fn deferring_step_9_before_lowering_stops_the_lowering_gate_until_done() {
    let steps: Vec<String> = (1..=10).map(|step| format!("{step}. Tighten bolt {step}.")).collect();
    let mut drive =
        Drive::of(TABLES, &format!("{}\n11. Lower it: [lowering].\n12. Tidy up.\n", steps.join("\n")));
    for _ in 1..9 {
        drive.done();
    }
    assert_eq!(drive.label(), "1.9");
    let lowering = match Before::named(&drive.book, "lowering") {
        Some(Before::Step(step)) => step,
        other => panic!("{other:?}"),
    };
    drive.take(Answer::Defer { before: lowering, reason: "no washer".to_owned() });
    assert_eq!(drive.label(), "1.10");
    drive.done();
    assert_eq!(drive.label(), "1.9", "before the gate");
    for past in [Answer::True, Answer::Release { said: "RV".to_owned() }, Answer::Close] {
        assert!(drive.answer(past).is_err());
    }
    let across = Answer::Defer { before: drive.step("1.12"), reason: "later still".to_owned() };
    assert!(matches!(drive.answer(across), Err(Refusal::AcrossHold { .. })));
    drive.done();
    assert_eq!(drive.ask(), Ask::Confirm { hold: name("lowering"), item: 0 });
}

/// Both sections end where the job can rest, so that each is called complete.
const RESTS: &str = "[stopping_points]\nlaid = \"all is laid out\"\nput_away = \"all is put away\"\n";
const SECTIONS: &str = "## First\n\n1. One.\n2. [laid] Two.\n\n## Second\n\n1. Three.\n2. [put_away] Four.\n";

fn put_off(drive: &mut Drive, until: &str) {
    match Before::named(&drive.book, until) {
        Some(Before::EndOf(section)) => {
            drive.between(InterruptionAnswer::DeferToEnd { section, reason: "no light".to_owned() });
        }
        other => panic!("{until}: {other:?}"),
    }
}

/// At the end of a section; a section with a deferred step is not called complete.
#[test]
fn a_step_deferred_to_the_end_of_its_section_comes_back_before_the_section_is_complete() {
    let mut drive = Drive::of(RESTS, SECTIONS);
    put_off(&mut drive, "section 1");
    assert_eq!(drive.status("1.1"), "deferred");
    assert_eq!(drive.label(), "1.2");
    drive.say(Answer::Done).unwrap();
    assert_eq!(drive.label(), "1.1");
    let complete = Answer::Flow(FlowAnswer::Complete);
    assert!(matches!(drive.say(complete), Err(Refusal::NotAsked { .. })));
    drive.say(Answer::Done).unwrap();
    assert_eq!(drive.ask(), Ask::Flow(FlowAsk::SectionComplete(SectionId(0))));
}

#[test]
fn a_step_deferred_past_its_section_leaves_the_section_incomplete() {
    let mut drive = Drive::of(RESTS, SECTIONS);
    put_off(&mut drive, "section 2");
    drive.say(Answer::Done).unwrap();
    assert_eq!(drive.label(), "2.1", "the first section is not called complete");
    drive.say(Answer::Done).unwrap();
    drive.say(Answer::Done).unwrap();
    assert_eq!(drive.label(), "1.1");
    drive.say(Answer::Done).unwrap();
    assert_eq!(drive.ask(), Ask::Flow(FlowAsk::SectionComplete(SectionId(0))));
    drive.say(Answer::Flow(FlowAnswer::Complete)).unwrap();
    assert_eq!(drive.ask(), Ask::Flow(FlowAsk::SectionComplete(SectionId(1))));
}

#[test]
fn a_section_that_is_over_or_across_a_hold_point_is_no_point_to_come_back_at() {
    let mut drive = Drive::of(TABLES, "## First\n\n1. One.\n2. Hold: [lowering].\n\n## Second\n\n1. Two.\n");
    let to = |section| {
        let answer = InterruptionAnswer::DeferToEnd { section: SectionId(section), reason: "no".to_owned() };
        Answer::Interruption(answer)
    };
    assert!(matches!(drive.say(to(0)), Err(Refusal::AcrossHold { .. })));
    drive.done();
    drive.release();
    assert!(matches!(drive.say(to(0)), Err(Refusal::NotLater { .. })));
    assert_eq!(Before::named(&drive.book, "section 9"), None);
    assert_eq!(Before::named(&drive.book, "the end"), None);
}

/// How often something is done, how many fasteners there are and what is typed rest on readings too: these are not put
/// off past it.
#[test]
fn what_a_repeat_a_group_or_a_critical_act_rests_on_is_not_put_off_past_it() {
    let cases = [
        ("kind = \"list\"", "[repeats.each]\nwhat = \"each\"\neach = \"read\"\n"),
        ("kind = \"count\"\ninformation_only = true", "[repeats.each]\nwhat = \"each\"\ntimes = 'read'\n"),
        (
            "kind = \"count\"\ninformation_only = true",
            "[fasteners.each]\nwhat = \"each\"\ncount = 'read'\nstages = [\"by hand\"]\n",
        ),
        ("unit = \"mm\"\ninformation_only = true", "[critical.each]\nwhat = \"each\"\nvalue = 'read'\n"),
    ];
    for (kind, other) in cases {
        let tables = format!("[readings.read]\nwhat = \"read\"\n{kind}\n{other}");
        let mut drive = Drive::of(&tables, "1. Read [read].\n2. [each] Turn.\n3. Wipe.\n");
        let past = Answer::Defer { before: drive.step("1.3"), reason: "no light".to_owned() };
        let refused = drive.answer(past);
        assert!(matches!(refused, Err(Refusal::NeededBefore { .. })), "{other}: {refused:?}");
    }
}
