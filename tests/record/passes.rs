//! Passes of repeats in the record: what was done in which, and what a change of their number does.

use bayhand::procedure::Name;
use bayhand::record::model::Record;
use bayhand::run::{Answer, Disposition, FlowAnswer};

use super::same_fields::compare;
use super::times::Own;

const CORNERS: &str = "[repeats.corner]\nwhat = \"both corners\"\neach = [\"left\", \"right\"]\n";
const PAD: &str = "[readings.pad]\nwhat = \"pad thickness\"\nunit = \"mm\"\nmin = 3\nfails = \"Replace.\"\n";

fn counts(own: &mut Own) {
    own.give(Answer::Flow(FlowAnswer::Counts));
}

fn give_up(own: &mut Own) {
    let (disposition, reason) = (Disposition::UseAsIs, "no time".to_owned());
    own.give(Answer::Flow(FlowAnswer::GiveUp { disposition, reason }));
}

fn correct(own: &mut Own, reading: &str, text: &str) {
    let (reading, text) = (Name(reading.to_owned()), text.to_owned());
    own.give(Answer::Correct { reading, text, reason: "misread".to_owned() });
}

fn turns<'record>(record: &'record Record, number: &str) -> Vec<&'record str> {
    let step = record.steps.iter().find(|step| step.number == number).unwrap();
    step.turns.iter().map(|turn| turn.to.as_str()).collect()
}

#[test]
fn a_deviation_says_its_pass() {
    let mut own = Own::of(
        &format!("{CORNERS}{PAD}"),
        "1. [corner] Measure the pad of the [corner] corner: [pad].\n2. Wipe.\n",
    );
    for reason in ["till Monday", "till Monday too"] {
        own.typed("2 mm");
        own.give(Answer::Accept { disposition: Disposition::UseAsIs, reason: reason.to_owned() });
        counts(&mut own);
    }
    own.give(Answer::Done);
    let (record, text) = own.record();
    let passes: Vec<_> = record.deviations.all.iter().map(|deviation| deviation.pass.as_deref()).collect();
    assert_eq!(passes, [Some("pass 1 of 2 (left)"), Some("pass 2 of 2 (right)")]);
    assert!(text.contains("Deviation 1, step 1.1, pass 1 of 2 (left): pad thickness: 2 mm; fail"), "{text}");
    assert!(text.contains("Deviation 2, step 1.1, pass 2 of 2 (right): pad thickness: 2 mm; fail"), "{text}");
    compare(&record);
}

#[test]
fn a_repeat_given_up_says_in_which_pass() {
    let mut own = Own::of(CORNERS, "1. Raise it.\n\n## Corners [corner]\n\n1. Look.\n2. Wipe.\n");
    own.give(Answer::Done);
    own.give(Answer::Done);
    own.give(Answer::Done);
    counts(&mut own);
    own.give(Answer::Done);
    give_up(&mut own);
    let (record, text) = own.record();
    let deviation = &record.deviations.all[0];
    assert_eq!((deviation.step.as_str(), deviation.pass.as_deref()), ("", Some("pass 2 of 2 (right)")));
    assert!(text.contains("Deviation 1, pass 2 of 2 (right): not as the procedure repeats it"), "{text}");
    let looked = turns(&record, "2.1");
    assert_eq!(looked, ["done, pass 1 of 2 (left)", "done, pass 2 of 2 (right)", "does not apply any more"]);
    assert_eq!(record.steps[1].state, "not applicable");
}

#[test]
fn each_pass_verifies_its_hold_point_by_itself() {
    let hold = "[holds.off]\nwhat = \"the wheel is off\"\nconfirm = [\"wheel off\"]\nrelease = \"lead\"\n";
    let mut own = Own::of(
        &format!("{CORNERS}{hold}"),
        "1. Raise it.\n\n## Corners [corner]\n\n1. Take off the wheel; release [off].\n2. Wipe.\n",
    );
    own.give(Answer::Done);
    for _ in ["left", "right"] {
        own.give(Answer::True);
        own.give(Answer::Release { said: "RV".to_owned() });
        own.give(Answer::Done);
        counts(&mut own);
    }
    let (record, text) = own.record();
    let verifications = &record.holds[0].verifications;
    let said: Vec<_> = verifications
        .iter()
        .map(|made| (made.pass.as_deref(), made.confirmed.len(), made.released.len()))
        .collect();
    assert_eq!(said, [(Some("pass 1 of 2 (left)"), 1, 1), (Some("pass 2 of 2 (right)"), 1, 1)]);
    assert_eq!(verifications[0].ended.as_ref().unwrap().why, "the pass ended");
    assert_eq!(verifications[1].again_because.as_deref(), Some("the pass ended"));
    assert!(text.contains("Verification 2, pass 2 of 2 (right)"), "{text}");
    compare(&record);
}

/// A pass that is begun anew in the middle of a verification breaks it off.
#[test]
fn a_verification_in_a_section_begun_anew_is_one_of_its_own() {
    let hold = "[holds.off]\nwhat = \"the wheel is off\"\nconfirm = [\"wheel off\", \"nuts kept\"]\n\
release = \"lead\"\n";
    let mut own = Own::of(hold, "1. Take off the wheel; release [off].\n2. Wipe.\n");
    own.give(Answer::True);
    own.give(Answer::Flow(FlowAnswer::Restart { reason: "the other wheel".to_owned() }));
    own.give(Answer::True);
    own.give(Answer::True);
    own.give(Answer::Release { said: "RV".to_owned() });
    own.give(Answer::Done);
    let (record, _) = own.record();
    let verifications = &record.holds[0].verifications;
    let confirmed: Vec<_> = verifications.iter().map(|made| made.confirmed.len()).collect();
    assert_eq!(confirmed, [1, 2]);
    assert_eq!(verifications[0].ended.as_ref().unwrap().why, "begun anew: the other wheel");
}

#[test]
fn a_step_that_a_correction_takes_out_was_not_reopened() {
    let tables = "[readings.head]\nwhat = \"kind of head\"\nchoices = [\"steel\", \"alloy\"]\n\
information_only = true\n[conditions.alloy]\nif = 'head == \"alloy\"'\n";
    let mut own = Own::of(tables, "1. Look: [head].\n2. [alloy] Check it.\n3. Wipe.\n");
    own.typed("alloy");
    own.give(Answer::Done);
    correct(&mut own, "head", "steel");
    correct(&mut own, "head", "alloy");
    correct(&mut own, "head", "steel");
    own.give(Answer::Done);
    let (record, _) = own.record();
    let gone = "does not apply any more";
    assert_eq!(turns(&record, "1.2"), ["done", gone, "applies again, as it was done", gone]);
    assert_eq!(record.steps[1].state, "not applicable");
}

/// One pass fewer, then one more again: nothing was done at these entries.
#[test]
fn a_correction_of_the_number_of_passes_does_no_step() {
    let tables = "[readings.bolts]\nwhat = \"number of bolts\"\nkind = \"count\"\ninformation_only = true\n\
[readings.stretch]\nwhat = \"stretch\"\nunit = \"mm\"\ninformation_only = true\n\
[repeats.bolt]\nwhat = \"the bolts\"\ntimes = 'bolts'\n";
    let body =
        "1. Count: [bolts].\n2. [bolt] For a bolt:\n   1. Measure [stretch].\n   2. Mark it.\n3. Wipe.\n";
    let mut own = Own::of(tables, body);
    own.typed("2");
    own.typed("0.5 mm");
    own.give(Answer::Done);
    counts(&mut own);
    own.typed("0.4 mm");
    correct(&mut own, "bolts", "1");
    correct(&mut own, "bolts", "2");
    own.give(Answer::Done);
    counts(&mut own);
    own.give(Answer::Done);
    let (record, _) = own.record();
    let fewer = "no further pass is made after pass 1 of 1";
    let more = "a further pass is to be made";
    assert_eq!(turns(&record, "1.2.1"), ["done, pass 1 of 2", "done, pass 2 of 2"]);
    assert_eq!(turns(&record, "1.2.2"), ["done, pass 1 of 2", fewer, more, "done, pass 2 of 2"]);
    assert_eq!(turns(&record, "1.2"), [fewer, more, "done, pass 2 of 2"]);
}
