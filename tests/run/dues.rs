//! What falls due after the job: by distance, by the calendar, by whichever comes first, from the day its step was done.

use bayhand::run::Answer;
use bayhand::source::SourceText;
use bayhand::vehicle;

use super::drive::{Drive, name};

const ODOMETER: &str = "[readings.odo]\nwhat = \"odometer\"\nunit = \"km\"\ninformation_only = true\n";

/// A run of one due whose step is not done yet, on a day.
fn on(day: &str, due: &str) -> Drive {
    let mut drive = Drive::of(
        &format!("{ODOMETER}[dues.later]\nwhat = \"look again\"\n{due}\n"),
        "1. Read [odo].\n2. Write down [later].\n3. Wipe.\n",
    );
    drive.now = format!("{day}T18:00:00+01:00[+01:00]").parse().expect("a time");
    drive.enter("152000 km");
    drive
}

/// When it is due, in words, once its step was done on that day.
fn told(day: &str, due: &str) -> String {
    let mut drive = on(day, due);
    drive.done();
    said(&drive)
}

fn said(drive: &Drive) -> String {
    drive.view().due(&name("later")).expect("it is declared").to_string()
}

/// The Gregorian calendar; a month without that day ends it.
#[test]
fn months_end_where_they_end() {
    for (day, months, due) in [
        ("2027-01-31", 1, "2027-02-28"),
        ("2028-01-31", 1, "2028-02-29"),
        ("2028-02-29", 12, "2029-02-28"),
        ("2028-02-29", 48, "2032-02-29"),
        ("2026-12-31", 2, "2027-02-28"),
        ("2096-02-29", 48, "2100-02-28"),
        ("2026-08-31", 1, "2026-09-30"),
    ] {
        assert_eq!(told(day, &format!("months = {months}")), format!("due {due}"), "{day} and {months}");
    }
    assert_eq!(told("2028-02-28", "days = 2"), "due 2028-03-01");
    assert_eq!(told("2027-01-31", "months = 1\ndays = 14"), "due 2027-02-14", "the earlier");
}

#[test]
fn a_distance_counts_from_its_odometer() {
    let due = "distance = '500 km'\nodometer = 'odo'";
    assert_eq!(told("2026-12-20", due), "due at 152500 km");
    let both = format!("{due}\nmonths = 12");
    assert_eq!(told("2026-12-20", &both), "due 2027-12-20 or at 152500 km, whichever comes first");
    let miles = "distance = '100 mi'\nodometer = 'odo'";
    // 160.9344 km: NIST SP 811, appendix B.8. The last whole kilometre that is not too late.
    assert_eq!(told("2026-12-20", miles), "due at 152160 km");
    let elapsed = "months = 1\ngone = '20 d'";
    assert_eq!(told("2026-12-20", elapsed), "due 2026-12-30", "a month from 2026-11-30");
}

#[test]
fn it_stands_once_its_step_is_done_and_moves_with_a_correction() {
    let mut drive = on("2026-12-20", "distance = '500 km'\nodometer = 'odo'\ndays = 30");
    assert!(drive.view().dues().is_empty(), "nothing is due yet");
    assert_eq!(said(&drive), "due 2027-01-19 or at 152500 km, whichever comes first", "as if done now");
    drive.done();
    drive.now = "2026-12-24T18:00:00+01:00[+01:00]".parse().expect("a time");
    assert_eq!(
        said(&drive),
        "due 2027-01-19 or at 152500 km, whichever comes first",
        "from the day it was done"
    );
    assert_eq!(drive.view().dues().len(), 1);
    let entry = drive.view().latest(&name("odo")).expect("it was read").place;
    drive.take(Answer::Correct {
        reading: name("odo"),
        entry: Some(entry),
        text: "153000 km".to_owned(),
        reason: "misread".to_owned(),
    });
    assert_eq!(said(&drive), "due 2027-01-19 or at 153500 km, whichever comes first");
}

/// With the use in the sheet the day is estimated, and says so; one that is later than the calendar's is not told.
#[test]
fn a_day_is_estimated_from_the_use() {
    let sheet = "format = 1\nvehicle = \"x\"\nidentification = \"x\"\nodometer_unit = \"km\"\n\
[values.use_per_month]\nvalue = \"1000 km\"\nsource = \"receipts\"\n";
    let with_use = |due: &str| {
        let mut drive = on("2026-12-20", due);
        drive.book.sheet = vehicle::read(&SourceText::new("sheet.toml", sheet)).value;
        drive.done();
        said(&drive)
    };
    let due = "distance = '500 km'\nodometer = 'odo'";
    // Half of 30.4375 d is 15.2 d.
    assert_eq!(
        with_use(due),
        "due at 152500 km; by distance about 2027-01-04, an estimate from 1000 km a month"
    );
    assert!(with_use(&format!("{due}\nmonths = 1")).contains("2027-01-04, an estimate"), "before 2027-01-20");
    let first = with_use(&format!("{due}\ndays = 10"));
    assert_eq!(first, "due 2026-12-30 or at 152500 km, whichever comes first");
}

#[test]
fn what_does_not_apply_is_not_due() {
    let mut drive = Drive::of(
        &format!(
            "{ODOMETER}[conditions.far]\nif = 'odo > 100000 km'\n[dues.later]\nwhat = \"look\"\nmonths = 1\n"
        ),
        "1. Read [odo].\n2. [far] Write down [later].\n3. Wipe.\n",
    );
    drive.enter("90000 km");
    drive.done();
    assert!(drive.view().dues().is_empty());
}
