//! Hold points: shut until released by the right person, lapsing as declared, ended by others.

use bayhand::run::{Answer, Ask, Disposition, Input, Leave, Refusal};

use super::drive::{Drive, leave, name};

const TABLES: &str = "[roles]\nlead = \"does the work\"\nhelper = \"helps\"\n\
[readings.rating]\nwhat = \"rating of each stand\"\nunit = \"kg\"\nmin = \"1000 kg\"\n\
[holds.support]\nwhat = \"Vehicle support\"\nconfirm = [\"on stands\", \"on hard ground\"]\nreadings = [\"rating\"]\n\
release = \"lead\"\nsecond = \"helper\"\nlapses = [\"resume\", \"disturbed\", \"8 h\"]\nprotection = \"vehicle on stands\"\n\
[holds.down]\nwhat = \"Vehicle down\"\nconfirm = [\"people clear\"]\nrelease = \"lead\"\nends = [\"support\"]\n";

const BODY: &str =
    "1. Check the support: [support].\n2. Work under it.\n3. Work more.\n4. Lower it: [down].\n5. Tidy up.\n";

fn released() -> Drive {
    let mut drive = Drive::of(TABLES, BODY);
    verify(&mut drive);
    drive
}

fn verify(drive: &mut Drive) {
    drive.take(Answer::True);
    drive.take(Answer::True);
    drive.enter("2000 kg");
    drive.release();
}

#[test]
fn a_hold_point_opens_item_by_item_and_is_released_by_two_people() {
    let mut drive = Drive::of(TABLES, BODY);
    assert!(matches!(drive.ask(), Ask::Confirm { item: 0, .. }));
    assert!(drive.answer(Answer::Done).is_err());
    drive.take(Answer::True);
    drive.take(Answer::True);
    drive.enter("2000 kg");
    let said = |said: &str| Answer::Release { said: said.to_owned() };
    assert!(matches!(drive.answer(said("")), Err(Refusal::NotTheReleaser { .. })));
    assert!(matches!(drive.answer(said("SH")), Err(Refusal::NotTheReleaser { .. })));
    drive.take(said("rv"));
    assert!(matches!(drive.answer(said("RV")), Err(Refusal::NotTheReleaser { .. })));
    assert!(drive.view().protections().is_empty());
    drive.take(said("Sam Hollis"));
    assert_eq!(drive.view().protections()[0].what, "vehicle on stands");
    assert_eq!(drive.label(), "1.2");
}

#[test]
fn an_untrue_statement_keeps_it_shut() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.take(Answer::Untrue { state: "one stand on gravel".to_owned() });
    assert!(matches!(drive.ask(), Ask::Confirm { item: 0, .. }));
    drive.take(Answer::True);
    assert!(matches!(drive.ask(), Ask::Confirm { item: 1, .. }));
}

#[test]
fn a_failed_reading_at_a_hold_point_cannot_be_gone_on_with() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.take(Answer::True);
    drive.take(Answer::True);
    drive.enter("900 kg");
    assert_eq!(drive.ask(), Ask::Failed(name("rating")));
    let accept = Answer::Accept { disposition: Disposition::UseAsIs, reason: "it will hold".to_owned() };
    assert!(matches!(drive.answer(accept), Err(Refusal::HoldPoint(_))));
    drive.take(Answer::Again { reason: "other stands".to_owned() });
    drive.enter("1500 kg");
    assert!(matches!(drive.ask(), Ask::Release { .. }));
}

#[test]
fn a_clock_that_is_set_back_does_not_lengthen_its_time() {
    let mut drive = released();
    drive.pass(-120);
    assert_eq!(drive.label(), "support");
    verify(&mut drive);
    assert_eq!(drive.label(), "1.2");
}

fn correct_rating(drive: &mut Drive, text: &str) {
    let reason = "misread".to_owned();
    drive.take(Answer::Correct { entry: None, reading: name("rating"), text: text.to_owned(), reason });
}

#[test]
fn a_reading_corrected_to_a_failing_one_shuts_the_hold_point_again() {
    let mut drive = released();
    correct_rating(&mut drive, "500 kg");
    assert_eq!(drive.label(), "support");
    assert!(drive.view().protections()[0].lapsed.is_some());
    verify(&mut drive);
    assert_eq!(drive.label(), "1.2");
}

#[test]
fn a_correction_that_was_itself_wrong_is_taken_back_by_the_next() {
    let mut drive = released();
    correct_rating(&mut drive, "200 kg");
    correct_rating(&mut drive, "2000 kg");
    assert_eq!(drive.label(), "1.2");
}

#[test]
fn a_reading_corrected_after_its_protection_ended_opens_both_hold_points_again() {
    let mut drive = released();
    drive.take(Answer::Done);
    drive.take(Answer::Done);
    drive.take(Answer::True);
    drive.release();
    assert_eq!(drive.label(), "1.5");
    correct_rating(&mut drive, "500 kg");
    drive.take(Answer::True);
    drive.take(Answer::True);
    drive.enter("1500 kg");
    drive.release();
    assert_eq!(drive.label(), "down");
}

#[test]
fn two_people_who_release_one_hold_point_are_not_one() {
    let mut drive = Drive::begin(super::drive::book(&super::drive::text(TABLES, BODY)));
    drive.take(Answer::Person("Robin Vale".to_owned()));
    let again = drive.answer(Answer::Person(" robin vale ".to_owned()));
    assert!(matches!(again, Err(Refusal::TwoPeople { .. })));
    drive.take(Answer::Person("Sam Hollis".to_owned()));
    assert_eq!(drive.ask(), Ask::Odometer);
}

#[test]
fn a_hold_point_is_neither_left_out_nor_put_off() {
    let mut drive = Drive::of(TABLES, BODY);
    let left_out = Answer::NotApplicable { reason: "no time".to_owned() };
    assert!(matches!(drive.answer(left_out), Err(Refusal::HoldPoint(_))));
    let put_off = Answer::Defer { before: drive.step("1.3"), reason: "no time".to_owned() };
    assert!(matches!(drive.answer(put_off), Err(Refusal::HoldPoint(_))));
}

#[test]
fn nothing_is_put_off_past_a_hold_point() {
    let mut drive = released();
    let past = Answer::Defer { before: drive.step("1.5"), reason: "no light".to_owned() };
    assert!(matches!(drive.answer(past), Err(Refusal::AcrossHold { .. })));
    drive.take(Answer::Defer { before: drive.step("1.4"), reason: "no light".to_owned() });
    assert_eq!(drive.label(), "1.3");
    drive.done();
    assert_eq!(drive.label(), "1.2");
}

#[test]
fn it_lapses_on_resume_and_both_verifications_stand() {
    let mut drive = released();
    drive.overnight();
    assert!(matches!(drive.ask(), Ask::Confirm { item: 0, .. }));
    assert_eq!(drive.number(), "1.1");
    assert!(drive.view().protections()[0].lapsed.is_some());
    verify(&mut drive);
    assert_eq!(drive.label(), "1.2");
    assert_eq!(drive.state.attempts(&name("rating")), 2);
}

#[test]
fn it_lapses_when_the_process_dies_too() {
    let mut drive = released();
    drive.input(Input::Resume).unwrap();
    drive.take(Answer::AcceptBrief);
    assert!(matches!(drive.ask(), Ask::Confirm { item: 0, .. }));
}

#[test]
fn it_lapses_after_its_time() {
    let mut drive = released();
    drive.pass(8 * 60 - 1);
    assert_eq!(drive.label(), "1.2");
    drive.pass(1);
    assert!(matches!(drive.ask(), Ask::Confirm { item: 0, .. }));
    verify(&mut drive);
    drive.pass(7 * 60);
    assert_eq!(drive.label(), "1.2");
}

#[test]
fn it_lapses_when_something_was_disturbed() {
    let mut drive = released();
    drive.take(Answer::Disturbed { what: "jack used at the rear".to_owned(), hold: None });
    assert!(matches!(drive.ask(), Ask::Confirm { item: 0, .. }));
}

#[test]
fn a_stop_lapses_every_hold_point() {
    let tables = TABLES.replace("lapses = [\"resume\", \"disturbed\", \"8 h\"]\n", "");
    let mut drive = Drive::of(&tables, BODY);
    verify(&mut drive);
    drive.take(leave(Leave::Stop));
    assert_eq!(drive.ask(), Ask::Resting);
    assert_eq!(drive.answer(Answer::Done), Err(Refusal::NotWorking));
    drive.input(Input::Resume).unwrap();
    drive.take(Answer::AcceptBrief);
    assert!(matches!(drive.ask(), Ask::Confirm { item: 0, .. }));
}

#[test]
fn a_protection_that_was_ended_is_put_in_force_again_before_work_under_it() {
    let tables = format!("{TABLES}[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nmax = \"2 mm\"\n");
    let body = BODY.replace("Work under it.", "Measure [gap].");
    let mut drive = Drive::of(&tables, &body);
    verify(&mut drive);
    drive.enter("1 mm");
    drive.done();
    drive.release();
    assert!(drive.view().protections().is_empty());
    let slip = Answer::Correct {
        entry: None,
        reading: name("gap"),
        text: "3 mm".to_owned(),
        reason: "wrong blade".to_owned(),
    };
    drive.take(slip);
    assert_eq!(drive.ask(), Ask::Failed(name("gap")));
    drive.take(Answer::Again { reason: "adjusted".to_owned() });
    assert!(matches!(drive.ask(), Ask::Confirm { item: 0, .. }), "{:?}", drive.ask());
    verify(&mut drive);
    drive.enter("1.5 mm");
    assert_eq!(drive.number(), "1.4");
    drive.release();
    assert!(drive.view().protections().is_empty());
    drive.done();
    assert_eq!(drive.ask(), Ask::Close);
}

#[test]
fn a_run_is_not_closed_over_anything_open() {
    let mut drive = released();
    let items: Vec<String> = drive.view().open_items().iter().map(ToString::to_string).collect();
    assert!(
        items.iter().any(|item| item.contains("vehicle on stands") && item.contains("Robin Vale")),
        "{items:?}"
    );
    assert!(matches!(drive.answer(Answer::Close), Err(Refusal::NotAsked { .. })));
}

/// Prepare, shut down, isolate, lock and tag, relieve, verify, in this order (29 CFR 1910.147 (d)(1) to
/// (6)). The battery cannot be released as isolated without volts read and a try.
#[test]
fn energy_is_isolated_in_order_and_proved_by_a_reading_and_a_try() {
    let tables = "[readings.volts]\nwhat = \"volts\"\nunit = \"V\"\nmax = \"0.5 V\"\n\
[readings.try_start]\nwhat = \"try\"\nchoices = [\"nothing\", \"it turns\"]\naccept = [\"nothing\"]\n\
[holds.battery]\nwhat = \"battery off\"\nisolates = \"the battery\"\nrelease = \"lead\"\n\
confirm = [\"told\", \"ignition off\", \"lead off\", \"tagged\", \"waited\"]\nreadings = [\"volts\", \"try_start\"]\n";
    let mut drive = Drive::of(tables, "## Off\n\n1. [battery]\n2. Work.\n");
    for item in 0..5 {
        assert_eq!(drive.ask(), Ask::Confirm { hold: name("battery"), item });
        assert!(drive.answer(Answer::Release { said: "RV".to_owned() }).is_err());
        drive.take(Answer::True);
    }
    drive.enter("12.4 V");
    assert_eq!(drive.ask(), Ask::Failed(name("volts")), "not gone");
    drive.take(Answer::Again { reason: "second battery found".to_owned() });
    drive.enter("0.1 V");
    assert!(drive.answer(Answer::Release { said: "RV".to_owned() }).is_err(), "nobody has tried it");
    drive.enter("nothing");
    drive.release();
    assert_eq!(drive.number(), "1.2");
}

/// A hold point whose reading was corrected to a failing one is open until everybody has released it anew: nothing is
/// called complete before.
#[test]
fn a_verification_that_was_begun_again_keeps_its_step_open() {
    let body = "## Under\n\n1. Check the support: [support].\n\n## Work\n\n1. Work.\n2. Lower it: [down].\n";
    let mut drive = Drive::of(TABLES, body);
    verify(&mut drive);
    let (reading, text) = (name("rating"), "900 kg".to_owned());
    drive.take(Answer::Correct { entry: None, reading, text, reason: "read the wrong plate".to_owned() });
    let step = |drive: &Drive| drive.status("1.1");
    assert_ne!(step(&drive), "done");
    while !matches!(drive.ask(), Ask::Reading(_) | Ask::Failed(_)) {
        drive.take(Answer::True);
    }
    if let Ask::Failed(_) = drive.ask() {
        drive.take(Answer::Again { reason: "other stands".to_owned() });
    }
    drive.enter("2000 kg");
    assert_ne!(step(&drive), "done", "nobody has released it");
    while !matches!(drive.ask(), Ask::Release { .. }) {
        drive.take(Answer::True);
    }
    drive.release();
    assert_eq!(step(&drive), "done");
}

/// A stand that is set anew to be read again has its pins looked at again; the ground below is what it was.
#[test]
fn what_a_retake_may_have_moved_is_confirmed_anew() {
    let tables = "[readings.height]\nwhat = \"height\"\nunit = \"mm\"\nmax = \"400 mm\"\n\
[holds.support]\nwhat = \"Vehicle support\"\nconfirm = [\"hard ground\", \"pins locked\"]\nreadings = [\"height\"]\n\
anew_after_retake = [\"pins locked\"]\nrelease = \"lead\"\n";
    let mut drive = Drive::of(tables, "1. Check the support: [support].\n2. Work under it.\n");
    let pins = Ask::Confirm { hold: name("support"), item: 1 };
    drive.take(Answer::True);
    drive.take(Answer::True);
    drive.enter("450 mm");
    drive.take(Answer::Again { reason: "set lower".to_owned() });
    drive.enter("430 mm");
    assert_eq!(drive.ask(), pins, "a retake that fails asks it too");
    drive.take(Answer::True);
    assert_eq!(drive.ask(), Ask::Failed(name("height")));
    drive.take(Answer::Again { reason: "set lower once more".to_owned() });
    drive.enter("380 mm");
    assert_eq!(drive.ask(), pins);
    assert!(drive.answer(Answer::Release { said: "RV".to_owned() }).is_err(), "not before the pins");
    drive.take(Answer::True);
    assert!(matches!(drive.ask(), Ask::Release { .. }));
    drive.take(Answer::Release { said: "RV".to_owned() });
    assert_eq!(drive.label(), "1.2");
}
