//! Times taken with the stopwatch: told from those that were typed; several runs and their mean.

use bayhand::formula::{Value, World};
use bayhand::run::{Answer, Answered, FlowAnswer};

use super::drive::{Drive, name};

const ENGAGE: &str = "[repeats.runs]\nwhat = \"three engagements\"\ntimes = 3\n\
[readings.engage]\nwhat = \"from the shift to the bite\"\nunit = \"s\"\ninformation_only = true\nstopwatch = true\n\
[values.mean_engage]\nwhat = \"mean of the runs\"\nformula = 'mean(engage)'\nunit = \"s\"\nmax = \"1.2 s\"\n";
const BODY: &str =
    "1. Warm it up.\n2. [runs] Shift, and time it: [engage].\n3. Look at the mean: [mean_engage].\n";

fn typed_text(drive: &Drive) -> Vec<String> {
    let taken = drive.readings(&name("engage")).into_iter();
    taken.map(|taken| taken.value.as_typed()).collect()
}

#[test]
fn three_timed_engagements_give_a_mean_and_each_time() {
    let mut drive = Drive::of(ENGAGE, BODY);
    drive.done();
    for run in ["0.9 s by stopwatch", "1.1 s by stopwatch", "1.2"] {
        drive.enter(run);
        drive.take(Answer::Flow(FlowAnswer::Counts));
    }
    // (0.9 + 1.1 + 1.2) / 3, by hand.
    let Some(Value::Quantity(mean)) = drive.view().known().value_of("mean_engage") else { panic!("no mean") };
    assert_eq!(mean.number.to_exact_text(), "16/15");
    assert_eq!(typed_text(&drive), ["0.9 s by stopwatch", "1.1 s by stopwatch", "1.2"]);
    assert_eq!(drive.label(), "1.3");
}

#[test]
fn the_mark_is_only_for_readings_that_can_be_timed() {
    let tables = "[readings.dwell]\nwhat = \"dwell\"\nunit = \"s\"\ninformation_only = true\n";
    let mut drive = Drive::of(tables, "1. Read [dwell].\n");
    assert!(drive.answer(super::drive::typed("2.0 s by stopwatch")).is_err());
    drive.enter("2.0 s");
}

#[test]
fn the_amount_is_what_was_timed() {
    let mut drive = Drive::of(ENGAGE, BODY);
    drive.done();
    drive.enter("12.3 s by stopwatch");
    let Answered::Quantity(entry) = &drive.view().latest(&name("engage")).unwrap().value else {
        panic!("a time")
    };
    assert_eq!((entry.text.as_str(), entry.typed.to_string().as_str()), ("12.3 s by stopwatch", "12.3 s"));
}
