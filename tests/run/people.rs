//! Who is there: names once a day, roles taken over, the brief before the first hold point.

use bayhand::run::{Answer, Ask, Input, Leave, PeopleAnswer, PeopleAsk, PeopleRefusal, Refusal};

use super::drive::{Drive, leave, name, typed};

const TABLES: &str = "[roles]\nlead = \"does the work\"\nhelper = \"watches\"\n\
[hazards.crush]\nsignal = \"DANGER\"\nhazard = \"it falls\"\nconsequence = \"it kills\"\navoid = \"stay out\"\n\
[holds.support]\nwhat = \"Vehicle support\"\nconfirm = [\"on stands\"]\nrelease = \"lead\"\nlapses = [\"people\"]\n\
protection = \"vehicle on stands\"\n\
[holds.fuel]\nwhat = \"Fuel is shut off\"\nconfirm = [\"tap shut\"]\nrelease = \"lead\"\n\
[holds.down]\nwhat = \"Vehicle down\"\nconfirm = [\"people clear\"]\nrelease = \"lead\"\nends = [\"support\"]\n";

const BODY: &str = "1. Look at it.\n2. [crush] Check the support: [support].\n3. [helper] Shut the tap: [fuel].\n\
4. Work under it.\n5. Lower it: [down].\n";

fn by_hand() -> Drive {
    let mut drive = Drive::of(TABLES, BODY);
    drive.by_hand = true;
    drive
}

fn people(answer: PeopleAnswer) -> Answer {
    Answer::People(answer)
}

fn present(names: &[&str]) -> Answer {
    people(PeopleAnswer::Present(names.iter().map(|name| (*name).to_owned()).collect()))
}

fn sign(said: &str) -> Answer {
    Answer::Release { said: said.to_owned() }
}

fn takes_over(role: &str, person: &str) -> Answer {
    let note = "tap is open, two bolts in".to_owned();
    people(PeopleAnswer::TakeOver { role: name(role), person: person.to_owned(), note })
}

fn to_the_work() -> Drive {
    let mut drive = by_hand();
    drive.done();
    drive.take(present(&["RV", "SH"]));
    drive.take(Answer::Acknowledge);
    drive.release();
    drive.release();
    assert_eq!(drive.label(), "1.4");
    drive
}

fn resume(drive: &mut Drive, minutes: i64) {
    drive.take(leave(Leave::Suspend));
    drive.pass(minutes);
    drive.input(Input::Resume).unwrap();
    drive.take(Answer::AcceptBrief);
}

#[test]
fn two_people_cannot_pass_the_first_hold_point_before_the_brief() {
    let mut drive = by_hand();
    drive.done();
    assert_eq!((drive.label().as_str(), drive.number().as_str()), ("pre-job brief", "1.2"));
    for answer in [Answer::True, Answer::Acknowledge, sign("RV"), Answer::Done, present(&[])] {
        assert!(drive.answer(answer).is_err());
    }
    let alone = drive.answer(present(&["Robin Vale"])).unwrap_err();
    assert_eq!(alone, Refusal::People(PeopleRefusal::NotPresent { missing: vec!["Sam Hollis".to_owned()] }));
    drive.take(present(&["sh", "Robin Vale", "Kim Day"]));
    assert_eq!(drive.ask(), Ask::Acknowledge(name("crush")));
}

#[test]
fn one_person_alone_holds_no_brief() {
    let tables = TABLES.replace("helper = \"watches\"\n", "");
    let mut drive = Drive::of(&tables, &BODY.replace("[helper] ", ""));
    drive.by_hand = true;
    drive.done();
    assert_eq!(drive.ask(), Ask::Acknowledge(name("crush")));
}

#[test]
fn on_the_same_day_nobody_is_asked_for_their_name_again() {
    let mut drive = to_the_work();
    resume(&mut drive, 60);
    assert_eq!(drive.label(), "1.4");
}

#[test]
fn on_another_day_each_name_is_kept_with_one_key_or_changed() {
    let mut drive = to_the_work();
    resume(&mut drive, 14 * 60);
    assert_eq!(drive.ask(), Ask::People(PeopleAsk::Still(name("lead"))));
    drive.take(people(PeopleAnswer::Named(" robin vale ".to_owned())));
    assert_eq!(drive.ask(), Ask::People(PeopleAsk::Still(name("helper"))));
    drive.take(people(PeopleAnswer::Keep));
    assert_eq!(drive.label(), "1.4", "the same name changes nothing");
    resume(&mut drive, 24 * 60);
    drive.take(people(PeopleAnswer::Keep));
    drive.take(people(PeopleAnswer::Named("Kim Day".to_owned())));
    assert_eq!(drive.ask(), Ask::People(PeopleAsk::Turnover(name("helper"))));
}

/// The day is that of the clock which the run is taken up by, wherever it was left.
#[test]
fn midnight_in_the_middle_of_a_sitting_asks_for_nothing() {
    let mut drive = to_the_work();
    drive.pass(8 * 60);
    drive.done();
    assert_eq!(drive.label(), "down");
}

#[test]
fn whoever_takes_over_answers_nothing_before_having_accepted() {
    let mut drive = to_the_work();
    drive.take(takes_over("lead", "Kim Day"));
    assert_eq!(drive.label(), "turnover");
    let correct = Answer::Correct {
        entry: None,
        reading: name("x"),
        text: "1".to_owned(),
        reason: "typed wrongly".to_owned(),
    };
    for answer in [
        Answer::Done,
        typed("1"),
        Answer::Note("x".to_owned()),
        Answer::Disturbed { what: "jack".to_owned(), hold: None },
        correct,
    ] {
        let refused = drive.answer(answer).unwrap_err();
        let whose = Refusal::People(PeopleRefusal::TurnoverFirst {
            person: "Kim Day".to_owned(),
            role: "lead".to_owned(),
        });
        assert_eq!(refused, whose);
    }
    assert!(matches!(drive.answer(sign("RV")), Err(Refusal::People(PeopleRefusal::NotThatPerson { .. }))));
    let mut stopped = drive.clone();
    stopped.take(leave(Leave::Stop));
    drive.take(sign("kd"));
    assert_eq!(drive.label(), "pre-job brief", "who is new is briefed before the work goes on");
    drive.take(present(&["KD", "SH"]));
    assert_eq!(drive.label(), "crush", "and reads the hazard");
    drive.take(Answer::Acknowledge);
    assert_eq!(drive.label(), "support", "and the hold point that lapses with people is verified again");
}

#[test]
fn a_hold_point_lapses_with_people_and_its_protection_stays_in_force() {
    let mut drive = to_the_work();
    drive.take(takes_over("helper", "Kim Day"));
    let protections = drive.view().protections();
    assert_eq!(protections[0].what, "vehicle on stands");
    assert_eq!(protections[0].lapsed.as_deref(), Some("Kim Day took over as helper"));
    drive.take(sign("Kim Day"));
    drive.take(present(&["RV", "KD"]));
    assert_eq!(drive.label(), "crush", "who is new has not read the hazard");
    drive.take(Answer::Acknowledge);
    assert_eq!(drive.label(), "support");
    drive.release();
    assert_eq!(drive.label(), "1.4", "the other hold point does not lapse with people");
    assert!(drive.view().protections()[0].lapsed.is_none());
}

#[test]
fn nobody_takes_over_their_own_role_or_without_a_word() {
    let mut drive = to_the_work();
    assert!(matches!(
        drive.answer(takes_over("lead", "robin vale")),
        Err(Refusal::People(PeopleRefusal::SameRole { .. }))
    ));
    assert!(drive.answer(takes_over("nobody", "Kim Day")).is_err());
    let note = String::new();
    let silent = PeopleAnswer::TakeOver { role: name("lead"), person: "Kim Day".to_owned(), note };
    assert!(matches!(drive.answer(people(silent)), Err(Refusal::Empty(_))));
}

/// Whoever has released a hold point does not release it a second time in another role.
#[test]
fn a_role_that_changes_hands_does_not_make_one_person_two() {
    let tables = TABLES.replacen(
        "release = \"lead\"\nlapses = [\"people\"]",
        "release = \"lead\"\nsecond = \"helper\"",
        1,
    );
    let mut drive = Drive::of(&tables, BODY);
    drive.done();
    drive.take(Answer::Acknowledge);
    drive.take(Answer::True);
    drive.take(sign("RV"));
    drive.take(takes_over("lead", "Kim Day"));
    drive.take(sign("KD"));
    drive.take(takes_over("helper", "Robin Vale"));
    drive.take(sign("RV"));
    drive.take(Answer::Acknowledge);
    assert!(matches!(drive.ask(), Ask::Release { .. }));
    assert_eq!(drive.answer(sign("RV")), Err(Refusal::SamePerson { person: "Robin Vale".to_owned() }));
}

/// The record names whoever had the role when something was done, not who has it at the end.
#[test]
fn each_entry_has_the_person_of_its_time() {
    let mut drive = to_the_work();
    let released = drive.view().last_release(&name("fuel")).unwrap().1.seq;
    drive.take(takes_over("lead", "Kim Day"));
    assert_eq!(drive.state.people.at(&name("lead"), released), Some("Robin Vale"));
    assert_eq!(drive.state.people.get(&name("lead")).unwrap(), "Kim Day");
    let open = drive.view().open_items();
    let by = open.iter().map(ToString::to_string).find(|item| item.contains("on stands")).unwrap();
    assert!(by.contains("released by Robin Vale"), "{by}");
}
