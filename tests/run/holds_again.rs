//! A hold point that several steps verify, each time anew.

use bayhand::procedure::Name;
use bayhand::run::{Answer, Ask, Disposition, FlowAnswer, Part};

use super::drive::{Drive, name};

const TABLES: &str = "[roles]\nlead = \"does the work\"\nhelper = \"helps\"\n\
[readings.rating]\nwhat = \"rating of each stand\"\nunit = \"kg\"\nmin = \"1000 kg\"\n\
[holds.support]\nwhat = \"Vehicle support\"\nconfirm = [\"on stands\"]\nreadings = [\"rating\"]\n\
release = \"lead\"\nsecond = \"helper\"\nlapses = [\"disturbed\"]\nprotection = \"vehicle on stands\"\n\
[holds.down]\nwhat = \"Vehicle down\"\nconfirm = [\"people clear\"]\nrelease = \"lead\"\nends = [\"support\"]\n";

const BODY: &str = "1. Check the support: [support].\n2. Work under it.\n3. [support] Again, with the springs free.\n\
4. Work more.\n5. Lower it: [down].\n6. Tidy up.\n";

fn verify(drive: &mut Drive, rating: &str) {
    drive.take(Answer::True);
    drive.enter(rating);
    drive.release();
}

/// Up to the second verification.
fn at_the_second() -> Drive {
    let mut drive = Drive::of(TABLES, BODY);
    verify(&mut drive, "2000 kg");
    drive.done();
    drive
}

/// What was read at the hold point at a step.
fn rating_at(drive: &Drive, number: &str) -> String {
    let part = Part::Step(drive.step(number));
    let at = drive.view().find(part).unwrap();
    let view = drive.view().inside(at);
    view.latest(&Name::from("rating")).unwrap().value.shown()
}

#[test]
fn each_of_its_steps_verifies_it_from_the_start() {
    let mut drive = at_the_second();
    assert_eq!((drive.label().as_str(), drive.number().as_str()), ("support", "1.3"));
    assert!(drive.answer(Answer::Done).is_err(), "no work before the second release");
    drive.take(Answer::True);
    assert_eq!(drive.ask(), Ask::Reading(name("rating")), "what was read at the first does not count here");
    drive.enter("900 kg");
    assert_eq!(drive.ask(), Ask::Failed(name("rating")));
    drive.take(Answer::Again { reason: "other stands".to_owned() });
    drive.enter("1500 kg");
    drive.take(Answer::Release { said: "RV".to_owned() });
    assert!(matches!(drive.ask(), Ask::Release { .. }), "both release anew");
    drive.take(Answer::Release { said: "SH".to_owned() });
    assert_eq!(drive.label(), "1.4");
    assert_eq!((rating_at(&drive, "1.1"), rating_at(&drive, "1.3")), ("2000 kg".into(), "1500 kg".into()));
    assert_eq!(drive.view().protections().len(), 1, "one protection, put in force twice");
    drive.done();
    drive.release();
    drive.done();
    assert_eq!(drive.ask(), Ask::Close);
}

/// No work under a hold point that is not released at the latest of its steps before that work.
#[test]
fn what_lapses_is_verified_again_at_the_latest_step_before_the_work() {
    let mut drive = at_the_second();
    verify(&mut drive, "2000 kg");
    drive.take(Answer::Disturbed { what: "a stand was kicked".to_owned(), hold: None });
    assert_eq!((drive.label().as_str(), drive.number().as_str()), ("support", "1.3"));
    verify(&mut drive, "2000 kg");
    assert_eq!(drive.label(), "1.4");
    let mut drive = Drive::of(TABLES, BODY);
    verify(&mut drive, "2000 kg");
    drive.take(Answer::Disturbed { what: "a stand was kicked".to_owned(), hold: None });
    assert_eq!((drive.label().as_str(), drive.number().as_str()), ("support", "1.1"));
}

/// A reading of the first verification that turns out wrong shuts the work under the first; the second stands for itself.
#[test]
fn a_corrected_reading_shuts_only_its_own_step() {
    let mut drive = at_the_second();
    verify(&mut drive, "2000 kg");
    let first = drive.readings(&name("rating"))[0].place;
    let (text, reason) = ("500 kg".to_owned(), "misread".to_owned());
    drive.take(Answer::Correct { reading: name("rating"), entry: Some(first), text, reason });
    assert_eq!(drive.number(), "1.1", "the first is open again");
    verify(&mut drive, "1500 kg");
    assert_eq!((drive.label().as_str(), rating_at(&drive, "1.3").as_str()), ("1.4", "2000 kg"));
}

/// Put in force again after its end, it needs its end again, at the next step that ends it.
#[test]
fn its_end_comes_after_each_of_its_steps() {
    let body =
        "1. Check the support: [support].\n2. Lower it: [down].\n3. [support]\n4. Work.\n5. [down] Again.\n";
    let mut drive = Drive::of(TABLES, body);
    verify(&mut drive, "2000 kg");
    drive.release();
    assert!(drive.view().protections().is_empty());
    assert_eq!(drive.number(), "1.3");
    verify(&mut drive, "2000 kg");
    assert_eq!(drive.label(), "1.4", "what ended the first stays ended");
    assert_eq!(drive.view().protections().len(), 1);
    drive.done();
    assert_eq!((drive.label().as_str(), drive.number().as_str()), ("down", "1.5"));
    drive.release();
    assert_eq!(drive.ask(), Ask::Close);
    assert!(drive.view().protections().is_empty());
}

#[test]
fn in_each_pass_the_step_verifies_it_anew() {
    let tables = format!("{TABLES}[repeats.sides]\nwhat = \"sides\"\neach = [\"left\", \"right\"]\n");
    let body = "## One\n\n1. Check: [support].\n\n## Two [sides]\n\n1. Work.\n2. [support]\n3. Work more.\n\n\
## Three\n\n1. Lower it: [down].\n";
    let mut drive = Drive::of(&tables, body);
    verify(&mut drive, "2000 kg");
    for _ in 0..2 {
        assert_eq!(drive.label(), "2.1");
        drive.done();
        assert_eq!((drive.label().as_str(), drive.number().as_str()), ("support", "2.2"));
        verify(&mut drive, "1500 kg");
        drive.done();
        drive.take(Answer::Flow(bayhand::run::FlowAnswer::Counts));
    }
    assert_eq!(drive.label(), "down");
    drive.release();
    assert_eq!(drive.ask(), Ask::Close);
}

/// Between two releases a reading turns out to be wrong and is taken again: whoever released before releases anew.
#[test]
fn a_reading_taken_again_between_two_releases_wants_both_anew() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.take(Answer::True);
    drive.enter("2000 kg");
    let release = |drive: &mut Drive, said: &str| drive.take(Answer::Release { said: said.to_owned() });
    release(&mut drive, "RV");
    let (text, reason) = ("200 kg".to_owned(), "misread".to_owned());
    drive.take(Answer::Correct { reading: name("rating"), entry: None, text, reason });
    assert_eq!(drive.ask(), Ask::Failed(name("rating")));
    drive.take(Answer::Again { reason: "other stands".to_owned() });
    drive.enter("1500 kg");
    assert_eq!(drive.ask(), Ask::Release { hold: name("support"), role: name("lead") });
    release(&mut drive, "RV");
    release(&mut drive, "SH");
    assert_eq!(drive.label(), "1.2");
}

/// What is corrected at its first step is taken again there, also where the section of its second was begun anew since.
#[test]
fn a_reading_corrected_at_the_first_step_is_taken_again_there() {
    let body = "## One\n\n1. Check the support: [support].\n\n## Two\n\n1. Work under it.\n\
2. [support] Again, with the springs free.\n3. Work more.\n\n## Three\n\n1. Lower it: [down].\n";
    let mut drive = Drive::of(TABLES, body);
    verify(&mut drive, "2000 kg");
    drive.done();
    verify(&mut drive, "1500 kg");
    drive.take(Answer::Flow(FlowAnswer::Restart { reason: "the springs were not free".to_owned() }));
    assert_eq!(drive.label(), "2.1");
    let first = drive.readings(&name("rating"))[0].place;
    let (text, reason) = ("200 kg".to_owned(), "misread".to_owned());
    drive.take(Answer::Correct { reading: name("rating"), entry: Some(first), text, reason });
    drive.take(Answer::True);
    drive.enter("900 kg");
    drive.take(Answer::Again { reason: "other stands".to_owned() });
    assert_eq!(drive.ask(), Ask::Reading(name("rating")));
    drive.enter("1200 kg");
    drive.release();
    assert_eq!((drive.label().as_str(), rating_at(&drive, "1.1").as_str()), ("2.1", "1200 kg"));
}

/// What was given up before its hold point was released has nothing that would rest on it.
#[test]
fn a_hold_point_of_a_pass_that_is_given_up_is_not_asked_for_any_more() {
    let tables = "[holds.air]\nwhat = \"Air\"\nconfirm = [\"doors open\"]\nrelease = \"lead\"\nlapses = [\"disturbed\"]\n\
[repeats.tries]\nwhat = \"tries\"\ntimes = 3\nnot_needed_after = \"one is enough\"\n";
    let body = "## Try [tries]\n\n1. Release [air].\n2. Try.\n\n## End\n\n1. Wipe.\n2. Tidy up.\n";
    let given_up = |passes: usize, begun: bool| {
        let mut drive = Drive::of(tables, body);
        for _ in 0..passes {
            drive.release();
            drive.done();
            drive.take(Answer::Flow(FlowAnswer::Counts));
        }
        assert_eq!((drive.label().as_str(), drive.number().as_str()), ("air", "1.1"));
        if begun {
            drive.take(Answer::True);
        }
        let reason = "no time".to_owned();
        drive.take(Answer::Flow(FlowAnswer::GiveUp { disposition: Disposition::UseAsIs, reason }));
        drive
    };
    for (passes, begun) in [(0, false), (1, false), (1, true)] {
        let mut drive = given_up(passes, begun);
        assert_eq!(drive.label(), "2.1", "after {passes} passes");
        drive.done();
        drive.done();
        assert!(drive.view().open_items().is_empty(), "{:?}", drive.view().open_items());
    }
}
