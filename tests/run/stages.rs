//! Stages of fasteners with a range, with a nominal value, and for information only.

use bayhand::run::{Answer, Ask, Disposition, FasteningAsk, Place, Refusal, Spot};

use super::drive::{Drive, name, reason};

/// Two studs; what is good is invented for the test.
fn studs(stage: &str) -> Drive {
    let tables = format!(
        "[fasteners.stud]\nwhat = \"studs of the cover\"\npositions = [\"1\", \"2\"]\nstages = [{stage}]\n\
[conditions.bad]\nfailed = \"stud\"\n"
    );
    Drive::of(&tables, "1. Tighten them: [stud].\n2. [bad] Call for help.\n3. Wipe.\n")
}

fn spot(position: &str) -> Spot {
    Spot { group: name("stud"), stage: 0, position: position.to_owned() }
}

fn asked(ask: fn(Spot) -> FasteningAsk, position: &str) -> Ask {
    Ask::Fastening(ask(spot(position)))
}

fn place(drive: &Drive, position: &str) -> Place {
    drive.view().tightening(&name("stud")).unwrap().unwrap().place(0, position)
}

/// What is thought of what was reached at a place, in words.
fn words(drive: &Drive, position: &str) -> String {
    let tightening = drive.view().tightening(&name("stud")).unwrap().unwrap();
    tightening.judged(0, position).unwrap().1.judgement.to_string()
}

fn not_good() -> Answer {
    Answer::NotGood { state: "it turns on".to_owned() }
}

#[test]
fn a_range_judges_what_was_reached() {
    let mut drive = studs("{ what = \"full\", unit = \"N·m\", min = 20, below = 30, read = true }");
    assert_eq!(drive.ask(), asked(FasteningAsk::Reach, "1"));
    drive.enter("20");
    assert_eq!(words(&drive, "1"), "pass, exactly on the minimum");
    drive.enter("30 N·m");
    assert_eq!(
        (drive.ask(), place(&drive, "2")),
        (Ask::Do, Place::Failed),
        "the procedure has a path for it"
    );
    assert_eq!(drive.number(), "1.2");
}

/// A range that is not read is what the tool is set within.
#[test]
fn a_range_that_is_not_read_is_shown_and_done() {
    let mut drive = studs("{ what = \"full\", unit = \"N·m\", min = 20, max = 30 }");
    assert_eq!(drive.ask(), asked(FasteningAsk::Tighten, "1"));
    let group = drive.book.procedure.fastener_group(&name("stud")).unwrap();
    let aim = drive.view().aim(&group.stages[0]).unwrap().unwrap();
    assert_eq!((aim.words().as_str(), aim.target), ("20 N·m to 30 N·m", None));
    drive.done();
    drive.done();
    assert_eq!(drive.number(), "1.3");
}

#[test]
fn beside_a_nominal_value_the_person_says_place_by_place() {
    let mut drive = studs("{ what = \"full\", unit = \"N·m\", nominal = 25, read = true }");
    drive.enter("24");
    assert_eq!((drive.ask(), place(&drive, "1")), (asked(FasteningAsk::Nominal, "1"), Place::Unjudged));
    assert_eq!(words(&drive, "1"), "nominal 25 N·m, not judged yet");
    assert!(matches!(drive.answer(Answer::Done), Err(Refusal::NotAsked { .. })));
    assert!(matches!(
        drive.answer(Answer::NotGood { state: " ".to_owned() }),
        Err(Refusal::Empty("what is wrong"))
    ));
    drive.take(Answer::Good);
    assert_eq!(words(&drive, "1"), "nominal 25 N·m, good by Robin Vale");
    assert_eq!((drive.ask(), place(&drive, "1")), (asked(FasteningAsk::Reach, "2"), Place::Done));
    drive.enter("12");
    drive.take(not_good());
    assert_eq!(place(&drive, "2"), Place::Failed);
    assert_eq!(drive.number(), "1.2", "a condition with `failed` knows it after the word");
}

#[test]
fn what_is_done_once_more_or_corrected_is_said_anew() {
    let tables = "[fasteners.stud]\nwhat = \"studs\"\npositions = [\"1\"]\n\
stages = [{ what = \"full\", unit = \"N·m\", nominal = 25, read = true }]\n";
    let mut drive = Drive::of(tables, "1. Tighten it: [stud].\n2. Wipe.\n");
    drive.enter("12");
    drive.take(not_good());
    assert_eq!(drive.ask(), asked(FasteningAsk::Failed, "1"));
    drive.take(Answer::Again { reason: reason() });
    drive.enter("20");
    assert_eq!(drive.ask(), asked(FasteningAsk::Nominal, "1"));
    drive.take(not_good());
    let (text, entry) = ("26".to_owned(), None);
    let correct = bayhand::run::FasteningAnswer::Correct { at: spot("1"), entry, text, reason: reason() };
    drive.take(Answer::Fastening(correct));
    assert_eq!(drive.ask(), asked(FasteningAsk::Nominal, "1"), "what was said was said of another value");
    drive.take(not_good());
    drive.take(Answer::Accept { disposition: Disposition::UseAsIs, reason: reason() });
    assert_eq!((place(&drive, "1"), drive.number().as_str()), (Place::Deviation(0), "1.2"));
}

#[test]
fn what_is_for_information_only_claims_nothing() {
    let mut drive = studs("{ what = \"stretch\", unit = \"mm\", information_only = true, read = true }");
    drive.enter("0.12");
    assert_eq!((words(&drive, "1").as_str(), place(&drive, "1")), ("information only", Place::Done));
    drive.enter("9 mm");
    assert_eq!(drive.number(), "1.3");
}

/// The setting says its own unit; what is read is asked for in it.
#[test]
fn the_unit_that_is_asked_for_is_the_stages_own() {
    for (stage, unit) in [
        ("{ what = \"full\", torque = \"20 lbf·ft\", within = \"4 %\", read = true }", "lbf·ft"),
        ("{ what = \"full\", unit = \"lbf·ft\", min = \"20 N·m\", read = true }", "lbf·ft"),
        ("{ what = \"turn\", angle = \"90 deg\", within = \"5 deg\", read = true }", "°"),
    ] {
        let drive = studs(stage);
        let group = drive.book.procedure.fastener_group(&name("stud")).unwrap();
        assert_eq!(drive.view().unit_of_stage(&group.stages[0]).symbol(), unit, "{stage}");
    }
}
