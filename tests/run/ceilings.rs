//! What a reading must never pass: kept, not judged, the hold point verified again, then taken again.

use bayhand::run::{Answer, Ask, Disposition, Judgement};

use super::drive::{Drive, name};

const LINE: &str = "[holds.shut]\nwhat = \"the line is shut\"\nconfirm = [\"valve closed\"]\nrelease = \"lead\"\n\
[readings.line]\nwhat = \"pressure in the line\"\nunit = \"bar\"\nmax = \"3 bar\"\nnever_above = \"4 bar\"\nopens = \"shut\"\n";
const BODY: &str = "1. Check [shut].\n2. Read [line].\n3. Wipe.\n";

fn at_reading() -> Drive {
    let mut drive = Drive::of(LINE, BODY);
    drive.release();
    drive
}

#[test]
fn beyond_the_ceiling_the_hold_point_opens_and_nothing_is_judged() {
    let mut drive = at_reading();
    // 4 bar is 400 kPa exactly: NIST SP 811, B.8.
    drive.enter("401 kPa");
    assert_eq!(drive.state.attempts(&name("line")), 1, "nothing entered is lost");
    let judged = drive.view().judge(&name("line")).unwrap();
    assert!(matches!(judged.judgement, Judgement::Beyond(_)), "{}", judged.judgement);
    assert!(matches!(drive.ask(), Ask::Confirm { .. }));
    assert_eq!(drive.number(), "1.1");
    let lapse = drive.view().lapse(&name("shut")).unwrap();
    assert_eq!(
        lapse, "pressure in the line was 401 kPa = 4.01 bar, never above 4 bar",
        "what is to be verified is not told twice"
    );
    drive.release();
    assert_eq!(drive.ask(), Ask::Reading(name("line")), "it is asked again after that");
    drive.enter("2.5 bar");
    assert_eq!(drive.label(), "1.3");
    assert!(drive.state.deviations.is_empty());
}

#[test]
fn exactly_on_the_ceiling_a_limit_judges() {
    let mut drive = at_reading();
    drive.enter("400 kPa");
    assert_eq!(drive.ask(), Ask::Failed(name("line")));
    assert!(drive.view().stands(&name("shut")));
}

#[test]
fn beyond_the_ceiling_no_reason_makes_it_good() {
    let tables =
        format!("[readings.least]\nwhat = \"least\"\nunit = \"bar\"\ninformation_only = true\n{LINE}")
            .replace("never_above = \"4 bar\"", "never_below = 'least'");
    let mut drive = Drive::of(&tables, "1. Check [shut].\n2. Read [least].\n3. Read [line].\n4. Wipe.\n");
    drive.release();
    drive.enter("1 bar");
    drive.enter("2 bar");
    // What must never be passed has moved, and a reading that was good lies beyond it now.
    drive.take(Answer::Correct {
        entry: None,
        reading: name("least"),
        text: "2.5 bar".to_owned(),
        reason: "misread".to_owned(),
    });
    assert!(matches!(drive.ask(), Ask::Confirm { .. }), "the hold point is verified again");
    let accept = Answer::Accept { disposition: Disposition::UseAsIs, reason: "it held".to_owned() };
    assert!(drive.answer(accept).is_err());
    drive.release();
    assert_eq!(drive.ask(), Ask::Reading(name("line")));
    drive.enter("2.7 bar");
    assert_eq!(drive.label(), "1.4");
}

#[test]
fn a_correction_beyond_the_ceiling_opens_the_hold_point_too() {
    let mut drive = at_reading();
    drive.enter("2.5 bar");
    drive.take(Answer::Correct {
        entry: None,
        reading: name("line"),
        text: "5 bar".to_owned(),
        reason: "misread".to_owned(),
    });
    assert!(matches!(drive.ask(), Ask::Confirm { .. }));
    drive.release();
    assert_eq!(drive.ask(), Ask::Reading(name("line")));
    assert_eq!(drive.status("1.2"), "current");
}
