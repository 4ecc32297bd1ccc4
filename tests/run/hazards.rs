//! Hazards and paragraphs come before the first thing that is done after them, whatever does not apply.

use bayhand::run::{Answer, Ask};

use super::drive::{Drive, name, typed};

#[test]
fn a_paragraph_and_its_danger_come_before_the_first_thing_after_them() {
    let tables = "[hazards.acid]\nsignal = \"DANGER\"\nhazard = \"acid in the tray\"\nconsequence = \"blinds\"\n\
avoid = \"wear goggles\"\n[readings.look]\nwhat = \"the look\"\nchoices = [\"good\", \"bad\"]\ninformation_only = true\n\
[conditions.bad]\nif = 'look == \"bad\"'\n";
    let body = "## One\n\n1. See [look].\n\n## Two\n\nMind the tray: [acid].\n\n1. [bad] Neutralise it.\n2. Empty it.\n\
3. Rinse it.\n";
    let mut drive = Drive::of(tables, body);
    drive.take(typed("good"));
    assert_eq!(drive.ask(), Ask::Acknowledge(name("acid")));
    assert_eq!(drive.number(), "2.2");
    let read =
        |number: &str| drive.view().read_before(drive.book.procedure.step(drive.step(number)).unwrap()).len();
    assert_eq!((read("2.2"), read("2.3")), (1, 0), "once, before the first thing that is done");
    drive.take(Answer::Acknowledge);
    drive.done();
    assert_eq!((drive.ask(), drive.number()), (Ask::Do, "2.3".to_owned()), "and not again");
}
