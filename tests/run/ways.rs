//! Ways of which one is chosen, sections called complete, sections that are done and then confirmed.

use bayhand::run::{Answer, Ask, FlowAnswer, FlowAsk, Input, Refusal};

use super::drive::{Drive, typed};

const WAYS: &str = "[alternatives.pull]\nwhat = \"pulling the seal\"\n";
const BODY: &str = "## Pull\n\n1. [pull] Pull the seal.\n   - With the hook.\n   - With two screws.\n   - By hand.\n2. Wipe.\n";

#[test]
fn exactly_one_way_is_done() {
    for (way, others) in [("1.1.1", ["1.1.2", "1.1.3"]), ("1.1.3", ["1.1.1", "1.1.2"])] {
        let mut drive = Drive::of(WAYS, BODY);
        let Ask::Flow(FlowAsk::Choose { ways, .. }) = drive.ask() else { panic!("{:?}", drive.ask()) };
        assert_eq!(ways.len(), 3);
        drive.take(Answer::Flow(FlowAnswer::Choose(drive.step(way))));
        let other = Answer::Flow(FlowAnswer::Choose(drive.step(others[0])));
        assert!(matches!(drive.answer(other), Err(Refusal::NotAsked { .. })), "choosing two is refused");
        drive.done();
        assert_eq!(drive.status(way), "done");
        assert!(others.iter().all(|other| drive.status(other) == "not applicable"));
        assert_eq!(drive.number(), "1.2");
    }
}

#[test]
fn a_way_that_is_none_is_refused() {
    let mut drive = Drive::of(WAYS, BODY);
    let wipe = drive.step("1.2");
    assert_eq!(drive.answer(Answer::Flow(FlowAnswer::Choose(wipe))), Err(Refusal::NotOffered));
}

const REST: &str = "[stopping_points]\nclean = \"all is clean and dry\"\n";

/// The completion call is its own event, the last of its section.
#[test]
fn a_section_is_called_complete_before_the_next_begins() {
    let mut drive = Drive::of(REST, "## One\n\n1. [clean] Wipe.\n\n## Two\n\n1. Rinse.\n");
    drive.input(Input::Answer(Answer::Done)).unwrap();
    assert!(matches!(drive.ask(), Ask::Flow(FlowAsk::SectionComplete(_))));
    assert!(drive.input(Input::Answer(Answer::Done)).is_err(), "the next section has not begun");
    drive.input(Input::Answer(Answer::Flow(FlowAnswer::Complete))).unwrap();
    assert_eq!(drive.number(), "2.1");
}

/// Where the job cannot be left after a section, the next step is all the look back that is needed.
#[test]
fn a_section_that_ends_at_no_stopping_point_is_not_called_complete() {
    let mut drive = Drive::of(REST, "## One\n\n1. [clean] Wipe.\n2. Rinse.\n\n## Two\n\n1. Dry.\n");
    drive.say(Answer::Done).unwrap();
    drive.say(Answer::Done).unwrap();
    assert_eq!(
        (drive.ask(), drive.number().as_str()),
        (Ask::Do, "2.1"),
        "the stopping point was before its end"
    );
    drive.say(Answer::Done).unwrap();
    assert_eq!(drive.ask(), Ask::Close);
}

/// The stopping point of a step holds after its last part; what does not apply is no end.
#[test]
fn the_end_of_a_section_is_its_last_step_that_applies() {
    let tables = format!(
        "{REST}[readings.look]\nwhat = \"look\"\nchoices = [\"wet\", \"dry\"]\ninformation_only = true\n\
[conditions.wet]\nif = 'look == \"wet\"'\n"
    );
    let body = "## One\n\n1. Look: [look].\n2. [clean] Put away:\n   1. The cloth.\n   2. The bucket.\n\
3. [wet] Dry it.\n\n## Two\n\n1. Rinse.\n";
    for (look, asked) in [("dry", true), ("wet", false)] {
        let mut drive = Drive::of(&tables, body);
        drive.say(typed(look)).unwrap();
        while drive.ask() == Ask::Do && drive.number() != "2.1" {
            drive.say(Answer::Done).unwrap();
        }
        assert_eq!(matches!(drive.ask(), Ask::Flow(FlowAsk::SectionComplete(_))), asked, "{look}");
        assert_eq!(drive.number() == "2.1", !asked, "{look}");
    }
}

const LEVEL: &str = "[levels]\nroutine = \"reference\"\n";

/// DO-CONFIRM: the steps are offered only after the work is declared done.
#[test]
fn a_section_of_routine_is_done_and_then_confirmed() {
    let mut drive = Drive::of(LEVEL, "## Clean [routine]\n\n1. Wipe.\n2. Rinse.\n");
    assert!(matches!(drive.ask(), Ask::Flow(FlowAsk::Perform(_))));
    assert!(drive.answer(Answer::Done).is_err());
    drive.take(Answer::Flow(FlowAnswer::WorkDone));
    drive.done();
    assert_eq!(drive.number(), "1.2");
    drive.say(Answer::Done).unwrap();
    assert!(
        matches!(drive.ask(), Ask::Flow(FlowAsk::SectionComplete(_))),
        "another level than the procedure's"
    );
    drive.take(Answer::Flow(FlowAnswer::Complete));
    assert_eq!(drive.ask(), Ask::Close);
}

#[test]
fn what_can_kill_is_led_step_by_step_whatever_the_level() {
    let hazard = "[hazards.fall]\nsignal = \"DANGER\"\nhazard = \"Fall\"\nconsequence = \"It kills\"\navoid = \"Stands\"\n";
    let drive = Drive::of(&format!("{LEVEL}{hazard}"), "## Clean [routine]\n\n1. [fall] Wipe.\n2. Rinse.\n");
    assert!(matches!(drive.ask(), Ask::Acknowledge(_)));
}
