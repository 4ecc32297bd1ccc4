//! Leaving steps out, putting them off, suspending, hazards, conditions, closing.

use bayhand::run::{Answer, Ask, Disposition, Leave, Refusal};

use super::drive::{Drive, leave, name};

#[test]
fn a_step_left_out_is_a_deviation_that_needs_a_disposition() {
    let mut drive = Drive::of("", "1. One.\n2. Two.\n");
    assert!(matches!(drive.answer(Answer::NotApplicable { reason: " ".to_owned() }), Err(Refusal::Empty(_))));
    drive.take(Answer::NotApplicable { reason: "no such part".to_owned() });
    assert_eq!(drive.status("1.1"), "not applicable");
    drive.done();
    assert_eq!(drive.ask(), Ask::Dispose(0));
    assert!(drive.answer(Answer::Close).is_err());
    drive.take(Answer::Dispose { disposition: Disposition::UseAsIs, reason: "not fitted here".to_owned() });
    drive.take(Answer::Close);
    assert_eq!(drive.ask(), Ask::Finished);
    assert_eq!(drive.answer(Answer::Note("late".to_owned())), Err(Refusal::NotWorking));
}

#[test]
fn a_deferred_step_comes_back_at_its_point() {
    let mut drive = Drive::of("", "1. One.\n2. Two.\n3. Three.\n4. Four.\n");
    let backwards = Answer::Defer { before: drive.step("1.1"), reason: "no jug".to_owned() };
    assert!(matches!(drive.answer(backwards), Err(Refusal::NotLater { .. })));
    drive.take(Answer::Defer { before: drive.step("1.3"), reason: "no jug".to_owned() });
    assert_eq!(drive.status("1.1"), "deferred");
    assert_eq!(drive.label(), "1.2");
    drive.done();
    assert_eq!(drive.label(), "1.1");
    drive.done();
    assert_eq!(drive.label(), "1.3");
}

/// The refusal names a clock too: nothing is read at the step that starts it.
#[test]
fn a_step_is_not_put_off_past_one_that_needs_its_wait() {
    let tables = "[waits.cure]\nwhat = \"the glue cures\"\nat_least = \"10 min\"\n";
    let mut drive = Drive::of(tables, "1. Glue it: [cure].\n2. When [cure] is over, load it.\n3. Tidy up.\n");
    let too_far = Answer::Defer { before: drive.step("1.3"), reason: "no glue".to_owned() };
    let refusal = drive.answer(too_far).unwrap_err();
    let words =
        "step 1.2 needs what is read here, or the wait that begins here; let it come back before that";
    assert!(refusal.to_string().starts_with(words), "{refusal}");
}

#[test]
fn a_step_is_not_put_off_past_one_that_needs_its_reading() {
    let tables = "[readings.supply]\nwhat = \"supply\"\nunit = \"bar\"\ninformation_only = true\n\
[readings.line]\nwhat = \"line\"\nunit = \"bar\"\nmin = \"0.6 * supply\"\n";
    let mut drive = Drive::of(tables, "1. Read [supply].\n2. Read [line].\n3. Tidy up.\n");
    let too_far = Answer::Defer { before: drive.step("1.3"), reason: "no gauge".to_owned() };
    assert_eq!(drive.answer(too_far), Err(Refusal::NeededBefore { step: "1.2".to_owned() }));
}

#[test]
fn a_condition_decides_and_shows_its_inputs() {
    let tables = "[readings.look]\nwhat = \"look\"\nchoices = [\"clear\", \"milky\"]\ninformation_only = true\n\
[conditions.water]\nif = 'look == \"milky\"'\n";
    let body = "1. See [look].\n2. [water] Replace the cooler.\n3. Tidy up.\n";
    let mut dry = Drive::of(tables, body);
    dry.enter("clear");
    assert_eq!(dry.label(), "1.3");
    assert_eq!(dry.status("1.2"), "not applicable");
    assert!(dry.view().condition_shown(&name("water")).contains("clear"));
    let mut wet = Drive::of(tables, body);
    wet.enter("milky");
    assert_eq!(wet.label(), "1.2");
    let slip = Answer::Correct {
        entry: None,
        reading: name("look"),
        text: "clear".to_owned(),
        reason: "bad light".to_owned(),
    };
    wet.take(slip);
    assert_eq!(wet.label(), "1.3");
}

#[test]
fn a_warning_is_acknowledged_apart_from_its_step_and_again_after_resume() {
    let tables = "[hazards.fumes]\nsignal = \"WARNING\"\nhazard = \"Fumes\"\nconsequence = \"They kill\"\navoid = \"Air\"\n\
[hazards.spill]\nsignal = \"NOTICE\"\nhazard = \"Spill\"\nconsequence = \"Stains\"\navoid = \"Rag\"\n";
    let mut drive = Drive::of(tables, "1. [fumes] [spill] Pour.\n2. Wipe.\n");
    assert_eq!(drive.ask(), Ask::Acknowledge(name("fumes")));
    assert!(drive.answer(Answer::Done).is_err());
    drive.take(Answer::Acknowledge);
    assert_eq!(drive.ask(), Ask::Do);
    drive.overnight();
    assert_eq!(drive.ask(), Ask::Acknowledge(name("fumes")));
    drive.take(Answer::Acknowledge);
    drive.done();
    assert_eq!(drive.label(), "1.2");
}

#[test]
fn suspending_needs_the_state_of_things() {
    let mut drive = Drive::of("", "1. One.\n");
    let nothing =
        Answer::Leave { how: Leave::Suspend, reason: "supper".to_owned(), state: String::new(), first: None };
    assert!(matches!(drive.answer(nothing), Err(Refusal::Empty(_))));
    drive.take(leave(Leave::Suspend));
    assert_eq!(drive.ask(), Ask::Resting);
}

#[test]
fn a_correction_twice_keeps_all_three_values() {
    let tables = "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\ninformation_only = true\n";
    let mut drive = Drive::of(tables, "1. Measure [gap].\n2. Tidy up.\n");
    let correct = |text: &str| Answer::Correct {
        entry: None,
        reading: name("gap"),
        text: text.to_owned(),
        reason: "misread".to_owned(),
    };
    assert!(matches!(drive.answer(correct("1 mm")), Err(Refusal::NeverTaken { .. })));
    drive.enter("1 mm");
    drive.take(correct("2 mm"));
    drive.take(correct("3 mm"));
    assert_eq!(drive.state.attempts(&name("gap")), 3);
}
