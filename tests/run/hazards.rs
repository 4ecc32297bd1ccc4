//! Hazards and paragraphs come before the first thing that is done after them, whatever does not apply; a hazard is
//! acknowledged once in a section and sitting, by those who are there.

use bayhand::run::{Answer, Ask, FasteningAnswer, FlowAnswer, Input, Leave, PeopleAnswer};

use super::drive::{Drive, leave, name, reason, typed};

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

const ACID: &str = "[hazards.acid]\nsignal = \"WARNING\"\nhazard = \"acid in the tray\"\nconsequence = \"blinds\"\n\
avoid = \"wear goggles\"\n";

fn asks_acid(drive: &Drive) -> bool {
    drive.ask() == Ask::Acknowledge(name("acid"))
}

/// A hazard that is read word for word at every step is read at none.
#[test]
fn it_is_acknowledged_once_in_a_section_and_anew_in_the_next() {
    let body = "## One\n\n1. [acid] Lift the tray.\n2. [acid] Carry it.\n\n## Two\n\n1. [acid] Empty it.\n2. Wipe.\n";
    let mut drive = Drive::of(ACID, body);
    assert!(asks_acid(&drive));
    assert!(drive.answer(Answer::Done).is_err(), "nothing is done before");
    drive.take(Answer::Acknowledge);
    drive.done();
    assert_eq!((drive.ask(), drive.number().as_str()), (Ask::Do, "1.2"), "read in this section");
    drive.done();
    assert!(asks_acid(&drive), "another section");
    assert_eq!(drive.number(), "2.1");
}

/// Two hazards in a section are two.
#[test]
fn each_hazard_is_acknowledged_by_itself() {
    let tables = format!("{ACID}{}", ACID.replace("acid", "steam"));
    let mut drive = Drive::of(&tables, "1. [acid] Lift it.\n2. [acid] [steam] Rinse it.\n3. Wipe.\n");
    drive.take(Answer::Acknowledge);
    drive.done();
    assert_eq!(drive.ask(), Ask::Acknowledge(name("steam")));
    drive.take(Answer::Acknowledge);
    assert_eq!((drive.ask(), drive.number().as_str()), (Ask::Do, "1.2"));
}

#[test]
fn it_is_acknowledged_once_for_all_passes_of_a_sitting() {
    let tables = format!("{ACID}[repeats.thrice]\nwhat = \"three trays\"\ntimes = 3\n");
    let step = "1. [thrice] Of a tray:\n   1. [acid] Lift it.\n2. Wipe.\n";
    let section = "## Trays [thrice]\n\n1. [acid] Lift it.\n\n## After\n\n1. Wipe.\n";
    for body in [step, section] {
        let mut drive = Drive::of(&tables, body);
        drive.take(Answer::Acknowledge);
        for _ in 0..2 {
            drive.done();
            drive.take(Answer::Flow(FlowAnswer::Counts));
            assert_eq!(drive.ask(), Ask::Do, "not again in the next pass: {body}");
        }
        drive.overnight();
        assert!(asks_acid(&drive), "another sitting: {body}");
    }
}

#[test]
fn it_is_acknowledged_again_after_a_resume() {
    let mut drive = Drive::of(ACID, "1. [acid] Lift the tray.\n2. [acid] Carry it.\n3. Wipe.\n");
    drive.take(Answer::Acknowledge);
    drive.done();
    drive.take(leave(Leave::Suspend));
    drive.pass(10);
    drive.input(Input::Resume).unwrap();
    drive.take(Answer::AcceptBrief);
    assert!(asks_acid(&drive));
}

/// The old acknowledgement stands in what was set aside.
#[test]
fn it_is_acknowledged_again_in_a_section_begun_anew() {
    let mut drive = Drive::of(ACID, "1. [acid] Lift the tray.\n2. [acid] Carry it.\n3. Wipe.\n");
    drive.take(Answer::Acknowledge);
    drive.done();
    drive.take(Answer::Flow(FlowAnswer::Restart { reason: reason() }));
    assert!(asks_acid(&drive));
    assert_eq!(drive.number(), "1.1");
}

/// What was done and is opened again is begun with its hazard.
#[test]
fn it_is_acknowledged_again_at_a_step_that_was_reopened() {
    let tables = format!(
        "{ACID}[fasteners.lid]\nwhat = \"screws of the lid\"\npositions = [\"left\", \"right\"]\nstages = [\"by hand\"]\n"
    );
    let mut drive = Drive::of(&tables, "1. [acid] Close the tray: [lid].\n2. [acid] Carry it.\n3. Wipe.\n");
    drive.take(Answer::Acknowledge);
    drive.done();
    drive.done();
    assert_eq!((drive.ask(), drive.number().as_str()), (Ask::Do, "1.2"));
    let (group, position) = (name("lid"), Some("left".to_owned()));
    drive.take(Answer::Fastening(FasteningAnswer::Loosened { group, position, reason: reason() }));
    assert!(asks_acid(&drive));
    assert_eq!(drive.number(), "1.1");
    drive.take(Answer::Acknowledge);
    drive.done();
    assert_eq!(
        (drive.ask(), drive.number().as_str()),
        (Ask::Do, "1.2"),
        "one reading stands for the section"
    );
}

/// Who comes in the middle has read nothing yet; who only goes on with the same people has.
#[test]
fn it_is_acknowledged_again_when_somebody_is_newly_named() {
    let tables = format!("[roles]\nlead = \"does the work\"\nhelper = \"hands things over\"\n{ACID}");
    let mut drive = Drive::of(&tables, "1. [acid] Lift the tray.\n2. [acid] Carry it.\n3. Wipe.\n");
    drive.take(Answer::Acknowledge);
    drive.done();
    let (role, note) = (name("helper"), "the tray is full".to_owned());
    drive.take(Answer::People(PeopleAnswer::TakeOver { role, person: "Kim Day".to_owned(), note }));
    drive.take(Answer::Release { said: "KD".to_owned() });
    assert!(asks_acid(&drive));
    drive.take(Answer::Acknowledge);
    assert_eq!(drive.ask(), Ask::Do);
    let (role, person) = (name("helper"), "Kim Daye".to_owned());
    drive.take(Answer::People(PeopleAnswer::CorrectName { role, person, reason: reason() }));
    assert_eq!(drive.ask(), Ask::Do, "a name that was misspelt is nobody new");
}

/// A hold point that lapsed is verified again: its hazard is read first, and not once more in the middle.
#[test]
fn the_hazard_of_a_lapsed_hold_point_comes_before_anything_of_it() {
    let tables = "[hazards.jet]\nsignal = \"WARNING\"\nhazard = \"a jet\"\nconsequence = \"it blinds\"\navoid = \"goggles\"\n\
[holds.air]\nwhat = \"Air\"\nconfirm = [\"doors open\"]\nreadings = [\"set\"]\nrelease = \"lead\"\nlapses = [\"disturbed\", \"2 h\"]\n\
[readings.set]\nwhat = \"set to\"\nunit = \"bar\"\nmax = \"2 bar\"\n";
    let body = "1. [jet] Release [air].\n2. Blow.\n3. Wipe.\n";
    let verified = |drive: &mut Drive| {
        assert_eq!(drive.ask(), Ask::Acknowledge(name("jet")));
        drive.take(Answer::Acknowledge);
        drive.take(Answer::True);
        drive.enter("1 bar");
        assert!(matches!(drive.ask(), Ask::Release { .. }), "{:?}", drive.ask());
        drive.release();
    };
    let mut drive = Drive::of(tables, body);
    verified(&mut drive);
    drive.take(Answer::Disturbed { what: "the hose".to_owned(), hold: None });
    verified(&mut drive);
    drive.now = drive.now.checked_add(jiff::SignedDuration::from_hours(3)).unwrap();
    verified(&mut drive);
    drive.done();
    assert_eq!(drive.number(), "1.3");
}
