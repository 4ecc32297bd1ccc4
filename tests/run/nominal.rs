//! A nominal value beside a reading: the person whose step it is says good or not good.

use bayhand::run::{Answer, Ask, Departure, Disposition, Event, Judgement, PeopleAsk, PeopleEvent, Refusal};

use super::drive::{Drive, name, typed};

const FIVE: &str = "[readings.five]\nwhat = \"voltage from T4 to T2\"\nunit = \"V\"\nnominal = \"5 V\"\n";

fn asked(of: &str) -> Ask {
    Ask::People(PeopleAsk::Nominal(name(of)))
}

fn not_good(state: &str) -> Answer {
    Answer::NotGood { state: state.to_owned() }
}

/// What is thought of a result, in words.
fn words(drive: &Drive, of: &str) -> String {
    drive.view().judge(&name(of)).unwrap().judgement.to_string()
}

fn correct(of: &str, text: &str) -> Answer {
    let (text, reason) = (text.to_owned(), "misread".to_owned());
    Answer::Correct { entry: None, reading: name(of), text, reason }
}

#[test]
fn nothing_goes_on_before_the_person_has_said_whether_it_is_good() {
    let mut drive = Drive::of(FIVE, "1. Read it: [five].\n2. Close up.\n");
    drive.enter("4.9 V");
    assert_eq!((drive.ask(), drive.label().as_str()), (asked("five"), "five"));
    assert_eq!(words(&drive, "five"), "nominal 5 V, not judged yet", "nothing says that anybody judged");
    assert!(matches!(drive.answer(Answer::Done), Err(Refusal::NotAsked { .. })));
    drive.take(Answer::Good);
    assert_eq!(drive.label(), "1.2");
    assert_eq!(words(&drive, "five"), "nominal 5 V, good by Robin Vale");
    let judged = PeopleEvent::Judged { result: name("five"), person: "Robin Vale".to_owned(), wrong: None };
    let (event, stamp) = drive.events.last().unwrap();
    assert_eq!(*event, Event::People(judged));
    let place = drive.state.tree.place(drive.state.attempts_at(&name("five")).next().unwrap().0);
    assert_eq!(stamp.place.as_deref(), Some(&place), "it belongs to the occurrence of the reading");
}

#[test]
fn one_that_is_not_good_fails_like_any_other() {
    let mut drive = Drive::of(FIVE, "1. Read it: [five].\n2. Close up.\n");
    drive.enter("0.1 V");
    assert!(matches!(drive.answer(not_good(" ")), Err(Refusal::Empty("what is wrong"))));
    drive.take(not_good("no supply at T4"));
    assert_eq!((drive.ask(), drive.status("1.1")), (Ask::Failed(name("five")), "failed"));
    assert_eq!(words(&drive, "five"), "nominal 5 V, not good by Robin Vale: no supply at T4");
    drive.take(Answer::Again { reason: "plug cleaned".to_owned() });
    assert_eq!(drive.ask(), Ask::Reading(name("five")));
    drive.enter("4.2 V");
    assert_eq!(drive.ask(), asked("five"), "a retake asks anew");
    drive.take(not_good("too low"));
    let attempts = drive.readings(&name("five"));
    let told = |attempt| drive.view().judge_attempt(&name("five"), attempt).unwrap().judgement.to_string();
    let both: Vec<String> = attempts.iter().map(told).collect();
    let kept = [
        "nominal 5 V, not good by Robin Vale: no supply at T4",
        "nominal 5 V, not good by Robin Vale: too low",
    ];
    assert_eq!(both, kept, "each attempt keeps the word on it");
    drive.take(Answer::Accept { disposition: Disposition::UseAsIs, reason: "old loom".to_owned() });
    assert_eq!(drive.label(), "1.2");
    assert_eq!(drive.state.deviations[0].departure, Departure::Result(name("five")));
}

#[test]
fn a_correction_asks_anew_and_so_does_a_nominal_that_moved() {
    let tables = "[readings.supply]\nwhat = \"supply\"\nunit = \"V\"\ninformation_only = true\n\
[readings.five]\nwhat = \"five\"\nunit = \"V\"\nnominal = \"supply / 2\"\n";
    let mut drive = Drive::of(tables, "1. Read [supply].\n2. Read [five].\n3. Close up.\n");
    drive.enter("10 V");
    drive.enter("4.9 V");
    drive.take(Answer::Good);
    drive.take(correct("five", "49 V"));
    assert_eq!(drive.ask(), asked("five"));
    drive.take(not_good("ten times too much"));
    drive.take(correct("five", "4.9 V"));
    drive.take(Answer::Good);
    assert_eq!(drive.label(), "1.3");
    drive.take(correct("supply", "12 V"));
    assert_eq!((drive.ask(), words(&drive, "five").as_str()), (asked("five"), "nominal 6 V, not judged yet"));
}

#[test]
fn a_condition_knows_only_after_the_word_whether_it_failed() {
    let tables = format!("{FIVE}[conditions.bad]\nfailed = \"five\"\n");
    let body = "1. Read it: [five].\n2. [bad] Mend the loom.\n3. Close up.\n";
    let mut drive = Drive::of(&tables, body);
    drive.enter("4.9 V");
    assert_eq!(drive.ask(), asked("five"));
    drive.take(Answer::Good);
    assert_eq!(drive.label(), "1.3", "not applicable: it is good");
    let mut drive = Drive::of(&tables, body);
    drive.enter("4.9 V");
    drive.take(not_good("it flickers"));
    assert_eq!(drive.label(), "1.2", "the procedure's own way to go on");
}

/// A word that turns a condition leaves what was done under it to be decided, live as when it is read back.
#[test]
fn a_word_that_turns_a_condition_leaves_what_was_done_to_be_decided() {
    let tables = format!("{FIVE}[conditions.bad]\nfailed = \"five\"\n");
    let mut drive = Drive::of(&tables, "1. Read it: [five].\n2. [bad] Mend the loom.\n3. Close up.\n");
    drive.enter("4.9 V");
    drive.take(not_good("it flickers"));
    drive.done();
    drive.take(correct("five", "5 V"));
    drive.take(Answer::Good);
    assert!(matches!(drive.ask(), Ask::Flow(bayhand::run::FlowAsk::Disagrees(_))), "{:?}", drive.ask());
    let events = drive.events.iter().map(|(event, stamp)| (event, stamp));
    assert!(bayhand::run::replay(&drive.book, events) == drive.state);
}

/// The word is that of the step's own person, and of the moment.
#[test]
fn the_person_of_the_step_judges_at_a_hold_point_too() {
    let tables = "[roles]\nlead = \"leads\"\nhelper = \"reads\"\n\
[readings.five]\nwhat = \"five\"\nunit = \"V\"\nnominal = \"5 V\"\n\
[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nnominal = \"2 mm\"\n\
[holds.dead]\nwhat = \"it is dead\"\nreadings = [\"gap\"]\nrelease = \"lead\"\n";
    let mut drive =
        Drive::of(tables, "1. [helper] Read it: [five].\n2. Make it safe [dead].\n3. Close up.\n");
    drive.enter("5 V");
    drive.take(Answer::Good);
    assert_eq!(words(&drive, "five"), "nominal 5 V, good by Sam Hollis");
    drive.enter("2 mm");
    assert_eq!(drive.ask(), asked("gap"));
    drive.take(not_good("rough"));
    assert_eq!(drive.ask(), Ask::Failed(name("gap")), "it stays shut");
    drive.take(Answer::Again { reason: "filed".to_owned() });
    drive.enter("2 mm");
    drive.take(Answer::Good);
    drive.release();
    assert_eq!(drive.label(), "1.3");
}

#[test]
fn the_second_reading_comes_before_the_word() {
    let tables = "[roles]\nlead = \"leads\"\nhelper = \"reads\"\n[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\n\
nominal = \"2 mm\"\nsecond = \"helper\"\nagree = \"0.1 mm\"\n";
    let mut drive = Drive::of(tables, "1. Read it: [gap].\n2. Close up.\n");
    drive.enter("2 mm");
    assert_eq!(drive.ask(), Ask::People(PeopleAsk::Second(name("gap"))));
    drive.enter("2.05 mm");
    assert_eq!(drive.ask(), asked("gap"));
}

#[test]
fn a_computed_value_and_one_as_found_are_judged_too() {
    let tables = "[readings.in_]\nwhat = \"in\"\nunit = \"V\"\nnominal = \"5 V\"\nas_found = true\n\
[readings.out]\nwhat = \"out\"\nunit = \"V\"\ninformation_only = true\n\
[values.drop]\nwhat = \"drop\"\nunit = \"V\"\nformula = \"in_ - out\"\nnominal = \"0 V\"\n"
        .replace("in_", "inlet");
    let mut drive = Drive::of(&tables, "1. Read [inlet].\n2. Read [out]: [drop].\n3. Close up.\n");
    drive.enter("4 V");
    assert_eq!(drive.ask(), asked("inlet"));
    drive.take(not_good("too low"));
    assert_eq!(drive.label(), "out", "a finding holds nothing up");
    drive.enter("3.5 V");
    assert_eq!(drive.ask(), asked("drop"));
    drive.take(not_good("too much"));
    assert_eq!(drive.ask(), Ask::Failed(name("drop")));
    drive.take(Answer::Again { reason: "cleaned".to_owned() });
    drive.enter("4 V");
    assert_eq!(drive.ask(), asked("drop"));
    drive.take(Answer::Good);
    assert_eq!(drive.label(), "1.3");
    drive.take(correct("out", "3 V"));
    assert_eq!(drive.ask(), asked("drop"));
}

#[test]
fn in_each_pass_it_is_judged_anew() {
    let tables = format!("{FIVE}[repeats.twice]\nwhat = \"both\"\ntimes = 2\n");
    let mut drive = Drive::of(&tables, "1. [twice] Read it: [five].\n2. Close up.\n");
    for _ in 0..2 {
        drive.enter("5 V");
        assert_eq!(drive.ask(), asked("five"));
        drive.take(Answer::Good);
        drive.take(Answer::Flow(bayhand::run::FlowAnswer::Counts));
    }
    assert_eq!(drive.label(), "1.2");
}

#[test]
fn for_information_alone_claims_nothing() {
    let tables = "[readings.b]\nwhat = \"b\"\nunit = \"mm\"\ninformation_only = true\n";
    let mut drive = Drive::of(tables, "1. Read [b].\n");
    assert!(drive.answer(Answer::Good).is_err());
    drive.take(typed("99 mm"));
    assert_eq!(drive.ask(), Ask::Close);
    assert!(matches!(drive.view().judge(&name("b")).unwrap().judgement, Judgement::InformationOnly));
    assert_eq!(words(&drive, "b"), "information only");
}
