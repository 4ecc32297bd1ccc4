//! Limits that stay in force over several steps.

use bayhand::run::{Answer, Ask};

use super::drive::{Drive, name};

const COOL: &str = "[watches.cool]\nwhat = \"fluid stays below 40 °C\"\nunit = \"°C\"\nbelow = \"40 °C\"\nreadings = [\"first\", \"later\"]\n\
[readings.first]\nwhat = \"fluid\"\nunit = \"°C\"\nmax = \"90 °C\"\n[readings.later]\nwhat = \"fluid\"\nunit = \"°C\"\nmax = \"90 °C\"\n\
[readings.last]\nwhat = \"fluid\"\nunit = \"°C\"\nmax = \"90 °C\"\n";
const BODY: &str =
    "1. Begin to cool [cool]: [first].\n2. Wait.\n3. Read [later].\n4. Let it go [cool].\n5. Read [last].\n";

fn in_force(drive: &Drive) -> Vec<&str> {
    drive.view().limits_in_force().into_iter().map(|limit| limit.what).collect()
}

#[test]
fn a_limit_is_in_force_from_the_end_of_one_step_to_the_end_of_another() {
    let mut drive = Drive::of(COOL, BODY);
    assert!(in_force(&drive).is_empty());
    drive.enter("45 °C");
    assert_eq!(drive.label(), "1.2", "not in force yet when it was read");
    assert_eq!(in_force(&drive), ["fluid stays below 40 °C"]);
    drive.overnight();
    assert_eq!(in_force(&drive), ["fluid stays below 40 °C"], "also on the next day");
    drive.done();
    drive.enter("39 °C");
    drive.done();
    assert!(in_force(&drive).is_empty());
    drive.enter("45 °C");
    assert_eq!(drive.ask(), Ask::Close);
}

#[test]
fn a_new_reading_is_judged_by_it_although_its_own_limits_hold() {
    let mut drive = Drive::of(COOL, BODY);
    drive.enter("30 °C");
    drive.done();
    drive.enter("45 °C");
    assert_eq!(drive.ask(), Ask::Failed(name("later")));
    let said = drive.view().judge(&name("later")).unwrap().judgement.to_string();
    assert!(
        said.starts_with("fail, 5 °C above the limit of 40 °C in force (fluid stays below 40 °C)"),
        "{said}"
    );
    // 105 °F is 40.6 °C: a correction is judged by what was in force when the reading was taken.
    let slip = Answer::Correct {
        entry: None,
        reading: name("later"),
        text: "105 °F".to_owned(),
        reason: "read °F".to_owned(),
    };
    drive.take(slip);
    assert_eq!(drive.ask(), Ask::Failed(name("later")));
    drive.take(Answer::Again { reason: "waited".to_owned() });
    drive.enter("100 °F");
    assert_eq!(drive.label(), "1.4");
}

#[test]
fn what_was_read_in_force_stays_judged_by_it_when_it_has_ended() {
    let mut drive = Drive::of(COOL, BODY);
    drive.enter("30 °C");
    drive.done();
    drive.enter("38 °C");
    drive.done();
    drive.take(Answer::Correct {
        entry: None,
        reading: name("later"),
        text: "48 °C".to_owned(),
        reason: "misread".to_owned(),
    });
    assert_eq!(drive.ask(), Ask::Failed(name("later")));
    drive.take(Answer::Correct {
        entry: None,
        reading: name("first"),
        text: "48 °C".to_owned(),
        reason: "misread".to_owned(),
    });
    assert_eq!(drive.ask(), Ask::Failed(name("later")), "the first was read before it came into force");
}
