//! A log: a row every so many minutes.

use bayhand::run::{Answer, Ask, Disposition, FlowAnswer, Input, LateAnswer, Over};
use jiff::SignedDuration;

use super::drive::{Drive, name, reason, typed};

const LOG: &str = "[repeats.warm_up]\nwhat = \"a row of the warm-up log\"\ntimes = 4\nevery = \"5 min\"\nlate = \"1 min\"\n\
not_needed_after = \"the engine is stopped anyhow\"\n\
[readings.temp]\nwhat = \"temperature\"\nunit = \"°C\"\ninformation_only = true\n";
const BODY: &str = "1. Start it.\n2. [warm_up] Read [temp].\n3. Stop it.\n";

/// The first row at 18:30.
fn begun() -> Drive {
    let mut drive = Drive::of(LOG, BODY);
    drive.done();
    row(&mut drive, "20 °C");
    drive
}

fn row(drive: &mut Drive, temp: &str) {
    drive.enter(temp);
    drive.take(Answer::Flow(FlowAnswer::Counts));
}

fn seconds(drive: &mut Drive, seconds: i64) {
    drive.now = drive.now.checked_add(SignedDuration::from_secs(seconds)).unwrap();
}

fn counts(drive: &mut Drive) {
    drive.take(Answer::Flow(FlowAnswer::Counts));
}

fn give_up(drive: &mut Drive) {
    drive.take(Answer::Flow(FlowAnswer::GiveUp { disposition: Disposition::UseAsIs, reason: reason() }));
}

fn due(drive: &Drive) -> String {
    drive.view().row_due(&name("warm_up")).unwrap().strftime("%H:%M").to_string()
}

/// What is said of the last row: that it is late, and by how much.
fn late(drive: &Drive) -> Option<String> {
    let view = drive.view();
    let pass = *view.round(&name("warm_up")).unwrap().ended.last().unwrap();
    view.late_row(&name("warm_up"), pass).map(|late| late.to_string())
}

#[test]
fn before_a_row_is_due_the_run_waits_and_other_things_can_be_said() {
    let mut drive = begun();
    let Ask::Wait { wait, until } = drive.ask() else { panic!("{:?}", drive.ask()) };
    assert_eq!((wait, until.strftime("%H:%M").to_string()), (name("warm_up"), "18:35".to_owned()));
    drive.take(Answer::Note("the fan came on".to_owned()));
    drive.pass(5);
    assert_eq!(drive.ask(), Ask::Reading(name("temp")));
}

#[test]
fn the_schedule_does_not_drift() {
    let mut drive = begun();
    drive.pass(5);
    seconds(&mut drive, 50);
    row(&mut drive, "30 °C");
    assert_eq!((due(&drive), late(&drive)), ("18:40".to_owned(), None));
    seconds(&mut drive, 250);
    row(&mut drive, "40 °C");
    assert_eq!((due(&drive), late(&drive)), ("18:45".to_owned(), None));
}

#[test]
fn a_late_row_is_flagged_by_how_much() {
    let mut drive = begun();
    drive.pass(8);
    row(&mut drive, "30 °C");
    assert_eq!(late(&drive).as_deref(), Some("late by 3 min"));
    assert_eq!(due(&drive), "18:40");
}

/// Read 40 s after it was due, and called good 40 s later: in time.
#[test]
fn a_row_is_as_late_as_its_first_reading() {
    let mut drive = begun();
    drive.pass(5);
    seconds(&mut drive, 40);
    drive.enter("30 °C");
    seconds(&mut drive, 40);
    counts(&mut drive);
    assert_eq!((late(&drive), due(&drive)), (None, "18:40".to_owned()));
    drive.pass(5);
    seconds(&mut drive, 10);
    drive.enter("40 °C");
    seconds(&mut drive, 100);
    counts(&mut drive);
    assert_eq!(late(&drive).as_deref(), Some("late by 1 min 30 s"));
}

/// While somebody thinks about a row the next one comes due: that one is late, not left out without a word.
#[test]
fn a_row_that_takes_long_does_not_hide_the_next() {
    let mut drive = begun();
    drive.pass(5);
    drive.enter("30 °C");
    drive.pass(7);
    counts(&mut drive);
    assert_eq!((late(&drive), due(&drive)), (None, "18:40".to_owned()));
    row(&mut drive, "40 °C");
    assert_eq!(late(&drive).as_deref(), Some("late by 2 min"));
}

#[test]
fn a_row_that_came_late_is_late_also_when_the_log_is_given_up() {
    let mut drive = begun();
    drive.pass(25);
    drive.enter("30 °C");
    give_up(&mut drive);
    assert_eq!(late(&drive).as_deref(), Some("late by 20 min; 4 rows after it are left out"));
    let mut drive = begun();
    drive.pass(25);
    give_up(&mut drive);
    assert_eq!(late(&drive), None, "it never came");
}

/// From paper: read at 18:35, entered at 18:45.
#[test]
fn a_row_entered_late_came_when_it_was_read() {
    let mut drive = begun();
    drive.pass(15);
    let answer = Box::new(typed("30 °C"));
    let (done, reason) = ("18:35".to_owned(), "from paper".to_owned());
    drive.take(LateAnswer { answer, done, reason }.into());
    counts(&mut drive);
    assert_eq!((late(&drive), due(&drive)), (None, "18:40".to_owned()));
}

/// Two rows at once would look like a steady state: what was due meanwhile is left out, and that is said.
#[test]
fn rows_that_nobody_took_are_left_out() {
    let mut drive = begun();
    drive.pass(17);
    row(&mut drive, "30 °C");
    assert_eq!(late(&drive).as_deref(), Some("late by 12 min; 2 rows after it are left out"));
    assert_eq!(due(&drive), "18:50");
    assert!(matches!(drive.ask(), Ask::Wait { .. }));
}

#[test]
fn it_survives_the_end_of_the_process() {
    let mut drive = begun();
    drive.pass(3);
    drive.input(Input::Resume).unwrap();
    drive.take(Answer::AcceptBrief);
    assert!(matches!(drive.ask(), Ask::Wait { .. }));
    let [wait] = &drive.view().running_waits()[..] else { panic!("one clock") };
    assert_eq!(wait.began.strftime("%H:%M").to_string(), "18:30");
    drive.pass(2);
    assert_eq!(drive.ask(), Ask::Reading(name("temp")));
}

#[test]
fn after_the_last_row_nothing_is_due() {
    let mut drive = begun();
    for temp in ["30 °C", "40 °C", "50 °C"] {
        drive.pass(5);
        row(&mut drive, temp);
    }
    assert_eq!(drive.label(), "1.3");
    assert!(drive.view().running_waits().is_empty());
}

/// A section can be a log too: its steps are led one by one, whatever its level of use.
#[test]
fn a_section_is_a_log() {
    let body =
        "1. Start it.\n\n## Log [warm_up]\n\n1. Open the hood.\n2. Read [temp].\n\n## End\n\n1. Stop it.\n";
    let mut drive = Drive::of(LOG, body);
    drive.done();
    drive.done();
    row(&mut drive, "20 °C");
    assert!(matches!(drive.ask(), Ask::Wait { .. }));
    drive.pass(5);
    assert_eq!(drive.label(), "2.1");
    drive.done();
    drive.pass(-3);
    assert_eq!(drive.ask(), Ask::Reading(name("temp")), "the row is begun, whatever the clock says now");
}

const STEADY: &str = "[repeats.soak]\nwhat = \"a row until it is steady\"\nuntil = 'spread(temp, last = 3) <= 1 K'\n\
resets = 'adjusted == \"yes\"'\nevery = \"5 min\"\nlate = \"1 min\"\n\
[readings.temp]\nwhat = \"temperature\"\nunit = \"°C\"\ninformation_only = true\n\
[readings.adjusted]\nwhat = \"was the burner adjusted\"\nchoices = [\"yes\", \"no\"]\ninformation_only = true\n";

fn steady_row(drive: &mut Drive, temp: &str, adjusted: &str) {
    drive.enter(temp);
    drive.enter(adjusted);
    drive.take(Answer::Flow(FlowAnswer::Counts));
    drive.pass(5);
}

fn is_over(drive: &Drive) -> bool {
    drive.view().round(&name("soak")).unwrap().over == Some(Over::Met)
}

fn steady() -> Drive {
    let mut drive = Drive::of(
        STEADY,
        "1. Start it.\n2. [soak] Log:\n   1. Read [temp].\n   2. Adjusted: [adjusted].\n3. Stop it.\n",
    );
    drive.done();
    drive
}

#[test]
fn steady_over_the_last_rows() {
    let mut drive = steady();
    for temp in ["40 °C", "60 °C", "61 °C"] {
        steady_row(&mut drive, temp, "no");
        assert!(!is_over(&drive), "{temp}");
    }
    steady_row(&mut drive, "60.5 °C", "no");
    assert!(is_over(&drive));
    assert_eq!(drive.label(), "1.3");
}

/// After an adjustment the rows before it say nothing of the state that it has brought.
#[test]
fn an_adjustment_resets_the_count() {
    let mut drive = steady();
    steady_row(&mut drive, "60 °C", "no");
    steady_row(&mut drive, "60 °C", "no");
    steady_row(&mut drive, "60 °C", "yes");
    assert!(!is_over(&drive), "three alike, but for the adjustment");
    steady_row(&mut drive, "60 °C", "no");
    steady_row(&mut drive, "60 °C", "no");
    assert!(!is_over(&drive), "two since the adjustment");
    steady_row(&mut drive, "60 °C", "no");
    assert!(is_over(&drive));
}

/// `0 min` means it: in time is what comes at the moment it is due.
#[test]
fn a_row_that_may_not_be_late_is_in_time_at_its_moment_only() {
    let mut drive = Drive::of(&LOG.replace("\"1 min\"", "\"0 min\""), BODY);
    drive.done();
    row(&mut drive, "20 °C");
    drive.pass(5);
    row(&mut drive, "30 °C");
    assert_eq!(late(&drive), None);
    drive.pass(5);
    seconds(&mut drive, 1);
    row(&mut drive, "40 °C");
    assert_eq!(late(&drive).as_deref(), Some("late by 1 s"));
}
