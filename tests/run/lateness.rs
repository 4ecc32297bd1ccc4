//! Late entries: what was done before it was entered keeps both times.

use bayhand::run::{
    Answer, Ask, Event, FasteningAnswer, FasteningEvent, Input, LateAnswer, LateEntry, Refusal,
};

use super::drive::{Drive, name, typed};

const TABLES: &str = "[waits.glue]\nwhat = \"the glue sets\"\nat_least = \"10 min\"\nat_most = \"30 min\"\n\
[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\ninformation_only = true\n\
[holds.chocks]\nwhat = \"it cannot roll\"\nconfirm = [\"chocks at both wheels\"]\nrelease = \"lead\"\nreadings = [\"angle\"]\n\
[readings.angle]\nwhat = \"slope\"\nunit = \"deg\"\ninformation_only = true\n";
const BODY: &str = "1. Spread the glue: [glue] begins.\n2. Measure [gap].\n3. Press after [glue].\n4. Chock it: [chocks].\n5. Wipe.\n";

fn late(answer: Answer, done: &str) -> Answer {
    LateAnswer { answer: Box::new(answer), done: done.to_owned(), reason: "from paper".to_owned() }.into()
}

/// Two hours after the run began at 18:30.
fn two_hours_on() -> Drive {
    let mut drive = Drive::of(TABLES, BODY);
    drive.pass(120);
    drive
}

fn last_late(drive: &Drive) -> LateEntry {
    drive.events.last().and_then(|(event, _)| event.late()).expect("a late entry").clone()
}

#[test]
fn both_times_are_kept() {
    let mut drive = two_hours_on();
    drive.take(late(Answer::Done, "20:15"));
    let entry = last_late(&drive);
    assert_eq!(entry.done.strftime("%F %T %:z").to_string(), "2026-11-21 20:15:00 +01:00");
    assert_eq!(entry.reason, "from paper");
    assert_eq!(drive.events.last().unwrap().1.at, drive.now);
    assert_eq!(drive.status("1.1"), "done");
}

#[test]
fn a_reading_counts_like_any_other() {
    let mut drive = two_hours_on();
    drive.done();
    drive.take(late(typed("0.4 mm"), "2026-11-21 19:00:30"));
    assert_eq!(last_late(&drive).done.strftime("%T").to_string(), "19:00:30");
    assert!(drive.view().latest(&name("gap")).is_some());
    assert_eq!(drive.status("1.2"), "done");
}

#[test]
fn not_before_the_run_and_not_in_the_future() {
    let mut drive = two_hours_on();
    let refusal = |drive: &mut Drive, done: &str| drive.answer(late(Answer::Done, done)).unwrap_err();
    assert!(matches!(refusal(&mut drive, "20:31"), Refusal::StillToCome(_)));
    assert!(matches!(refusal(&mut drive, "18:29"), Refusal::BeforeStart { .. }));
    assert!(matches!(refusal(&mut drive, "2026-11-20 20:00"), Refusal::BeforeStart { .. }));
    for nonsense in ["", "noon", "25:00", "20:15:61", "2026-13-01 20:00", "-1:00"] {
        assert!(matches!(refusal(&mut drive, nonsense), Refusal::NotAMoment(_)), "{nonsense}");
    }
    let answer = Box::new(Answer::Done);
    let without = LateAnswer { answer, done: "20:00".to_owned(), reason: " ".to_owned() };
    assert!(matches!(drive.answer(without.into()), Err(Refusal::Empty(_))));
    drive.take(late(Answer::Done, "18:30"));
}

#[test]
fn acts_of_the_moment_are_not_entered_late() {
    let mut drive = two_hours_on();
    drive.done();
    drive.enter("0.4 mm");
    drive.pass(11);
    drive.done();
    assert!(matches!(drive.ask(), Ask::Confirm { .. }));
    assert_eq!(drive.answer(late(Answer::True, "20:00")), Err(Refusal::NotLate));
    drive.take(Answer::True);
    assert!(matches!(drive.ask(), Ask::Reading(_)));
    assert_eq!(drive.answer(late(typed("0 deg"), "20:00")), Err(Refusal::NotLate));
    drive.enter("0 deg");
    let release = Answer::Release { said: "RV".to_owned() };
    assert_eq!(drive.answer(late(release, "20:00")), Err(Refusal::NotLate));
    assert!(matches!(drive.ask(), Ask::Release { .. }));
}

/// The shortest time counts from the entry, on the safe side; the longest from when it was really done.
#[test]
fn a_wait_counts_the_shortest_from_the_entry_and_the_longest_from_the_stated_time() {
    let mut drive = two_hours_on();
    drive.take(late(Answer::Done, "20:10"));
    drive.enter("0.4 mm");
    let [wait] = &drive.view().running_waits()[..] else { panic!("one wait") };
    let clock = |moment: &Option<jiff::ZonedDateTime>| moment.as_ref().unwrap().strftime("%H:%M").to_string();
    assert_eq!((clock(&wait.until), clock(&wait.latest)), ("20:40".to_owned(), "20:40".to_owned()));
    drive.pass(9);
    assert!(matches!(drive.ask(), Ask::Wait { .. }));
    drive.pass(2);
    assert!(matches!(drive.ask(), Ask::Late { .. }));
}

#[test]
fn what_was_done_in_time_on_paper_was_not_missed() {
    const MOST: &str = "[waits.glue]\nwhat = \"the glue sets\"\nat_most = \"30 min\"\n";
    let mut drive =
        Drive::of(MOST, "1. Spread the glue: [glue] begins.\n2. Press within [glue].\n3. Wipe.\n");
    drive.done();
    drive.pass(45);
    assert!(matches!(drive.ask(), Ask::Late { .. }));
    assert!(drive.answer(late(Answer::Done, "19:01")).is_err(), "that was after the time was over");
    drive.take(late(Answer::Done, "18:59"));
    assert_eq!(drive.label(), "1.3");
    assert!(drive.state.deviations.is_empty());
}

/// A late entry within a late entry is no answer, and a journal that has one is read all the same.
#[test]
fn it_is_not_nested() {
    let mut drive = two_hours_on();
    let nested = late(late(Answer::Done, "20:00"), "20:00");
    assert_eq!(drive.answer(nested), Err(Refusal::NotLate));
    drive.take(late(Answer::Done, "20:00"));
    let entry = last_late(&drive);
    let event = bayhand::run::Event::Late(LateEntry {
        event: Box::new(drive.events.last().unwrap().0.clone()),
        ..entry
    });
    assert!(matches!(event.itself(), bayhand::run::Event::Done(_)));
    assert!(drive.input(Input::Answer(Answer::Done)).is_err(), "a reading is asked");
}

/// A bolt that was tightened on paper has both times; setting the tool is an act of the moment.
#[test]
fn a_fastener_is_entered_late() {
    let bolts =
        "[fasteners.pan]\nwhat = \"bolts of the pan\"\npositions = [\"1\", \"2\"]\nstages = [\"by hand\"]\n";
    let mut drive = Drive::of(bolts, "1. Tighten the bolts: [pan].\n2. Wipe.\n");
    drive.pass(120);
    if drive.answer(late(Answer::Done, "20:15")).is_err() {
        drive.take(Answer::Fastening(FasteningAnswer::StageSet));
        drive.take(late(Answer::Done, "20:15"));
    }
    assert!(matches!(*last_late(&drive).event, Event::Fastening(FasteningEvent::Tightened { .. })));
    let skip = Answer::Fastening(FasteningAnswer::Skip { reason: "it sheared".to_owned() });
    assert_eq!(drive.answer(late(skip, "20:15")), Err(Refusal::NotLate));
    drive.take(late(Answer::Done, "20:16"));
    assert_eq!(drive.label(), "1.2");
}
