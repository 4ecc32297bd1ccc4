//! A reading taken a second time by another person, who has not seen the first.

use bayhand::run::{
    Answer, Answered, Ask, Departure, Disposition, PeopleAnswer, PeopleAsk, PeopleRefusal, Refusal,
    SecondStanding,
};

use super::drive::{Drive, name};

const TABLES: &str = "[roles]\nlead = \"does the work\"\nhelper = \"reads again\"\n\
[readings.torque]\nwhat = \"torque\"\nunit = \"N·m\"\nmin = \"40 N·m\"\nmax = \"60 N·m\"\nsecond = \"helper\"\nagree = \"2 N·m\"\n\
[conditions.tight]\nif = 'torque > 55 N·m'\n\
[values.twice]\nwhat = \"twice\"\nformula = '2 * torque'\nunit = \"N·m\"\ninformation_only = true\n";
const BODY: &str = "1. Read [torque]. It is [twice].\n2. [tight] Mark it.\n3. Go on.\n";

fn second() -> Ask {
    Ask::People(PeopleAsk::Second(name("torque")))
}

fn differs() -> Ask {
    Ask::People(PeopleAsk::Differs(name("torque")))
}

#[test]
fn two_readings_that_agree_count_as_the_first() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.enter("50");
    assert_eq!((drive.ask(), drive.label().as_str()), (second(), "second torque"));
    drive.enter("52");
    assert_eq!(drive.label(), "1.3");
    let seconds = &drive.view().entered(&name("torque")).unwrap().seconds;
    assert_eq!((seconds.len(), seconds[0].person.as_str()), (1, "Sam Hollis"));
    let Answered::Quantity(first) = &drive.view().latest(&name("torque")).unwrap().value else { panic!() };
    assert_eq!(first.text, "50");
}

/// Until the second is there, nothing that rests on the first is known to anybody.
#[test]
fn what_rests_on_the_first_is_not_known_before_the_second() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.enter("70");
    assert_eq!(drive.ask(), second(), "a first reading that fails is no question yet: it would tell");
    assert!(drive.view().is_blind(&name("torque")));
    assert_eq!(drive.status("1.1"), "current");
    assert!(!drive.view().condition_shown(&name("tight")).contains("70"));
    let twice = drive.view().judge(&name("twice")).unwrap();
    assert!(twice.quantity.is_none(), "{twice:?}");
    drive.enter("70.5");
    assert_eq!(drive.ask(), Ask::Failed(name("torque")), "now it is judged");
}

#[test]
fn the_same_person_does_not_read_it_twice() {
    let mut drive = Drive::of(TABLES, BODY);
    let note = "nothing open".to_owned();
    let role = name("helper");
    drive.take(Answer::People(PeopleAnswer::TakeOver { role, person: "Robin Vale".to_owned(), note }));
    drive.take(Answer::Release { said: "RV".to_owned() });
    drive.enter("50");
    assert!(matches!(
        drive.answer(super::drive::typed("50")),
        Err(Refusal::People(PeopleRefusal::OwnWork { .. }))
    ));
    assert_eq!(drive.ask(), second());
}

#[test]
fn two_that_differ_hold_the_step_until_both_are_read_again() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.enter("50");
    drive.enter("52.1");
    assert_eq!(drive.ask(), differs());
    assert!(drive.answer(Answer::Done).is_err());
    let silent = Answer::Again { reason: String::new() };
    assert!(matches!(drive.answer(silent), Err(Refusal::Empty(_))));
    drive.take(Answer::Again { reason: "the wrench slipped".to_owned() });
    assert_eq!(drive.ask(), Ask::Reading(name("torque")));
    drive.enter("51");
    assert_eq!(drive.ask(), second(), "the second is read again too");
    drive.enter("51");
    assert_eq!(drive.label(), "1.3");
}

#[test]
fn a_difference_is_gone_on_with_as_a_deviation() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.enter("50");
    drive.enter("47");
    let reason = "the second wrench is known to read low".to_owned();
    drive.take(Answer::Accept { disposition: Disposition::UseAsIs, reason });
    assert_eq!(drive.state.deviations[0].departure, Departure::Differs(name("torque")));
    assert_eq!(drive.label(), "1.3");
}

/// The difference is exact, and the bound itself still agrees.
#[test]
fn a_correction_of_the_first_is_compared_too() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.enter("50");
    drive.enter("48");
    assert_eq!(drive.label(), "1.3");
    let reason = "misread".to_owned();
    drive.take(Answer::Correct { entry: None, reading: name("torque"), text: "50.01".to_owned(), reason });
    assert_eq!(drive.view().second_standing(&name("torque")), SecondStanding::Differ);
    assert_eq!(drive.ask(), differs());
}

/// 35 lbf·ft is 47.45 N·m (NIST SP 811, appendix B: 1 lbf·ft = 1.355818 N·m).
#[test]
fn the_second_may_be_typed_in_another_unit() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.enter("48");
    drive.enter("35 lbf·ft");
    assert_eq!(drive.label(), "1.3");
}

#[test]
fn counts_and_choices_are_the_same_or_they_are_not() {
    let tables = "[roles]\nlead = \"does the work\"\nhelper = \"reads again\"\n\
[readings.balls]\nwhat = \"balls\"\nkind = \"count\"\ninformation_only = true\nsecond = \"helper\"\n\
[readings.look]\nwhat = \"look\"\nchoices = [\"red\", \"brown\"]\ninformation_only = true\nsecond = \"helper\"\n";
    let mut drive = Drive::of(tables, "1. Count [balls].\n2. See [look].\n3. Go on.\n");
    drive.enter("7");
    drive.enter("8");
    assert_eq!(drive.ask(), Ask::People(PeopleAsk::Differs(name("balls"))));
    drive.take(Answer::Again { reason: "counted while moving".to_owned() });
    drive.enter("8");
    drive.enter("8");
    drive.enter("red");
    drive.enter("brown");
    assert_eq!(drive.ask(), Ask::People(PeopleAsk::Differs(name("look"))));
    drive.take(Answer::Again { reason: "other light".to_owned() });
    drive.enter("red");
    drive.enter("red");
    assert_eq!(drive.label(), "1.3");
}

#[test]
fn at_a_hold_point_a_difference_is_never_gone_on_with() {
    let tables = format!(
        "{TABLES}[holds.safe]\nwhat = \"Safe\"\nreadings = [\"volts\"]\nrelease = \"lead\"\n\
[readings.volts]\nwhat = \"volts\"\nunit = \"V\"\nmax = \"1 V\"\nsecond = \"helper\"\nagree = \"0.1 V\"\n"
    );
    let mut drive =
        Drive::of(&tables, "1. Measure: [safe].\n2. Read [torque] and [twice].\n3. [tight] Mark it.\n");
    drive.enter("0.1");
    assert_eq!(drive.ask(), Ask::People(PeopleAsk::Second(name("volts"))));
    drive.enter("0.9");
    let accept = Answer::Accept { disposition: Disposition::UseAsIs, reason: "low anyway".to_owned() };
    assert!(matches!(drive.answer(accept), Err(Refusal::HoldPoint(_))));
    drive.take(Answer::Again { reason: "probe slipped".to_owned() });
    drive.enter("0.1");
    drive.enter("0.1");
    drive.release();
    assert_eq!(drive.label(), "torque");
}
