//! What fails does not go away by a correction of something else.

use bayhand::run::{Answer, Ask, Disposition, FlowAnswer, FlowAsk, replay};

use super::drive::{Drive, name, reason};

const STRETCH: &str = "[readings.n]\nwhat = \"bolts\"\nkind = \"count\"\ninformation_only = true\n\
[readings.stretch]\nwhat = \"stretch\"\nunit = \"mm\"\nmax = \"1 mm\"\n\
[repeats.bolt]\nwhat = \"each bolt\"\ntimes = 'n'\n";
const BODY: &str =
    "## Count\n\n1. Count [n].\n\n## Measure [bolt]\n\n1. Read [stretch].\n\n## After\n\n1. Wipe.\n";

fn correct(drive: &mut Drive, reading: &str, text: &str) {
    let (reading, text) = (name(reading), text.to_owned());
    drive.take(Answer::Correct { entry: None, reading, text, reason: "miscounted".to_owned() });
}

/// It is shown before anything else, and the run is not closed over it.
fn is_decided_before_the_end(mut drive: Drive, number: &str) {
    let step = drive.step(number);
    assert_eq!(drive.ask(), Ask::Flow(FlowAsk::Disagrees(step)));
    assert!(drive.answer(Answer::Close).is_err());
    drive.take(Answer::Accept { disposition: Disposition::UseAsIs, reason: reason() });
    assert_eq!(drive.state.deviations.len(), 1);
    while drive.ask() == Ask::Do {
        drive.done();
    }
    drive.take(Answer::Close);
}

#[test]
fn a_count_corrected_to_nothing_leaves_what_failed_to_be_decided() {
    let mut drive = Drive::of(STRETCH, BODY);
    drive.enter("2");
    drive.enter("5 mm");
    assert_eq!(drive.ask(), Ask::Failed(name("stretch")));
    correct(&mut drive, "n", "0");
    assert_eq!(drive.status("2.1"), "not applicable");
    is_decided_before_the_end(drive, "2.1");
}

#[test]
fn a_pass_that_is_not_made_any_more_is_decided_about() {
    let mut drive = Drive::of(STRETCH, BODY);
    drive.enter("2");
    drive.enter("0.5 mm");
    drive.take(Answer::Flow(FlowAnswer::Counts));
    drive.enter("5 mm");
    correct(&mut drive, "n", "1");
    is_decided_before_the_end(drive, "2.1");
}

#[test]
fn a_condition_that_a_correction_turns_leaves_what_failed_to_be_decided() {
    let tables = "[readings.mode]\nwhat = \"head\"\nchoices = [\"alloy\", \"steel\"]\ninformation_only = true\n\
[conditions.soft]\nif = 'mode == \"alloy\"'\n\
[readings.flat]\nwhat = \"flatness\"\nunit = \"mm\"\nmax = \"0.05 mm\"\n";
    let mut drive = Drive::of(tables, "1. See [mode].\n2. [soft] Read [flat].\n3. Wipe.\n");
    drive.enter("alloy");
    drive.enter("0.2 mm");
    correct(&mut drive, "mode", "steel");
    is_decided_before_the_end(drive, "1.2");
}

#[test]
fn what_is_corrected_itself_or_still_asked_about_is_no_deviation() {
    let mut drive = Drive::of(STRETCH, BODY);
    drive.enter("2");
    drive.enter("5 mm");
    correct(&mut drive, "n", "3");
    assert_eq!(drive.ask(), Ask::Failed(name("stretch")));
    correct(&mut drive, "stretch", "0.5 mm");
    assert!(drive.state.deviations.is_empty());
}

/// What is to be settled is so however the run came to be read: also when it is read back, after other things were said.
#[test]
fn a_run_that_is_read_back_still_asks_what_no_longer_agrees() {
    let tables = "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\ninformation_only = true\n\
[conditions.wide]\nif = 'gap > 5 mm'\n";
    let mut drive = Drive::of(tables, "1. Read [gap].\n2. [wide] Fit a shim.\n3. Wipe.\n");
    drive.enter("9 mm");
    drive.done();
    correct(&mut drive, "gap", "1 mm");
    drive.take(Answer::Note("it was read upside down".to_owned()));
    assert_eq!(drive.ask(), Ask::Flow(FlowAsk::Disagrees(drive.step("1.2"))));
    let read_back = replay(&drive.book, drive.events.iter().map(|(event, stamp)| (event, stamp)));
    assert_eq!(read_back.derived.unsettled.len(), 1);
    assert_eq!(read_back, drive.state);
}
