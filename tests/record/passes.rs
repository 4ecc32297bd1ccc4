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
    let (reading, text) = (Name::from(reading), text.to_owned());
    own.give(Answer::Correct { entry: None, reading, text, reason: "misread".to_owned() });
}

/// What became of each occurrence of a step: its pass, its state, why not, and whether it counts.
fn became<'record>(record: &'record Record, number: &str) -> Vec<(Option<&'record str>, &'record str)> {
    let steps = record.steps.iter().filter(|step| step.number == number);
    steps.map(|step| (step.place.pass.as_deref(), step.state.as_str())).collect()
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
    let passes: Vec<_> =
        record.deviations.all.iter().map(|deviation| deviation.place.pass.as_deref()).collect();
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
    own.give(Answer::Done);
    give_up(&mut own);
    let (record, text) = own.record();
    let deviation = &record.deviations.all[0];
    assert_eq!((deviation.step.as_str(), deviation.place.pass.as_deref()), ("", Some("pass 2 of 2 (right)")));
    assert!(text.contains("Deviation 1, pass 2 of 2 (right): given up: both corners"), "{text}");
    let (left, right) = (Some("pass 1 of 2 (left)"), Some("pass 2 of 2 (right)"));
    assert_eq!(became(&record, "2.1"), [(left, "done"), (right, "done")]);
    assert_eq!(became(&record, "2.2"), [(left, "done"), (right, "not applicable")]);
    assert_eq!(record.steps[4].why.as_deref(), Some("given up: no time"));
    assert_eq!(record.repeats[0].verdict, "given up");
    assert_eq!(record.outcome.repeats_given_up, 1);
    assert_eq!(record.result, "completed with 1 deviation; 1 repeat given up");
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
    }
    let (record, text) = own.record();
    let said: Vec<_> = record
        .holds
        .iter()
        .map(|hold| {
            (hold.place.pass.as_deref(), hold.verifications[0].released.len(), hold.verifications.len())
        })
        .collect();
    assert_eq!(said, [(Some("pass 1 of 2 (left)"), 1, 1), (Some("pass 2 of 2 (right)"), 1, 1)]);
    assert!(text.contains("2.1, pass 2 of 2 (right) the wheel is off [off]"), "{text}");
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
    let confirmed: Vec<_> = record
        .holds
        .iter()
        .flat_map(|hold| &hold.verifications)
        .map(|made| (made.confirmed.len(), made.released.len()))
        .collect();
    assert_eq!(confirmed, [(1, 0), (2, 1)]);
    let aside = record.holds[0].place.aside.as_ref().unwrap();
    assert_eq!((aside.how.as_str(), aside.reason.as_str()), ("set aside", "the other wheel"));
    assert_eq!(record.holds[1].place.aside, None);
    let aside: Vec<bool> = record.steps.iter().map(|step| step.place.aside.is_some()).collect();
    assert_eq!(aside, [true, true, false, false]);
}

/// What was done under what no longer holds is settled before the close, and the record says both.
#[test]
fn a_step_that_a_correction_takes_out_stands_as_it_was_done() {
    let tables = "[readings.head]\nwhat = \"kind of head\"\nchoices = [\"steel\", \"alloy\"]\n\
information_only = true\n[conditions.alloy]\nif = 'head == \"alloy\"'\n";
    let mut own = Own::of(tables, "1. Look: [head].\n2. [alloy] Check it.\n3. Wipe.\n");
    own.typed("alloy");
    own.give(Answer::Done);
    correct(&mut own, "head", "steel");
    own.give(Answer::Accept { disposition: Disposition::UseAsIs, reason: "it does no harm".to_owned() });
    own.give(Answer::Done);
    let (record, text) = own.record();
    assert_eq!(became(&record, "1.2"), [(None, "done")]);
    let settled = "left as it was done, under what no longer holds, deviation 1";
    assert!(record.steps[1].changes.iter().any(|change| change.to == settled), "{:?}", record.steps[1]);
    assert_eq!(record.deviations.all[0].departs, "the step was done under what no longer holds");
    assert!(text.contains("corrected, before: alloy: misread"), "{text}");
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
    own.typed("0.4 mm");
    correct(&mut own, "bolts", "1");
    correct(&mut own, "bolts", "2");
    own.give(Answer::Done);
    own.give(Answer::Done);
    let (record, _) = own.record();
    let done = [(Some("pass 1 of 2"), "done"), (Some("pass 2 of 2"), "done")];
    for step in ["1.2", "1.2.1", "1.2.2"] {
        assert_eq!(became(&record, step), done, "{step}");
    }
}

#[test]
fn what_stands_once_each_pass_has_its_address_in_data_and_text() {
    let values = "[values.half]\nwhat = \"half the pad\"\nformula = 'pad / 2'\nunit = \"mm\"\ninformation_only = true\n";
    let mut own = Own::of(
        &format!("{CORNERS}{PAD}{values}"),
        "1. [corner] For the [corner] corner:\n   1. Measure [pad].\n   2. Half of it is [half].\n2. Wipe.\n",
    );
    for thickness in ["4 mm", "6 mm"] {
        own.typed(thickness);
        own.give(Answer::Done);
    }
    own.give(Answer::Done);
    let (record, text) = own.record();
    let turns: Vec<_> = record.readings.iter().map(|reading| reading.place.turns.as_slice()).collect();
    assert_eq!(turns, [&[][..], &[1, 2][..]]);
    let results = record.values.iter().map(|value| value.result.as_ref().unwrap().result.as_ref().unwrap());
    let results: Vec<_> = results.map(|result| result.number.as_str()).collect();
    // Half of 4 mm and of 6 mm, by hand.
    assert_eq!(results, ["2", "3"]);
    assert!(text.contains("1.1.2, pass 2 of 2 (right) DONE, #9: Half of it is 3 mm."), "{text}");
    assert!(text.contains("1.1, pass 1 of 2 (left) DONE, #7: For the left corner:"), "{text}");
    assert_eq!(became(&record, "1.2"), [(None, "done")]);
    compare(&record);
}

/// What a hold point reads stands in the record at each step that verifies it.
#[test]
fn a_hold_point_verified_twice_stands_there_twice() {
    let tables = "[readings.rating]\nwhat = \"rating of each stand\"\nunit = \"kg\"\nmin = \"1000 kg\"\n\
[holds.support]\nwhat = \"Vehicle support\"\nconfirm = [\"on stands\"]\nreadings = [\"rating\"]\nrelease = \"lead\"\n\
protection = \"vehicle on stands\"\n\
[holds.down]\nwhat = \"Vehicle down\"\nconfirm = [\"people clear\"]\nrelease = \"lead\"\nends = [\"support\"]\n";
    let body = "1. Check the support: [support].\n2. Work under it.\n3. [support] Again, with the springs free.\n\
4. Work more.\n5. Lower it: [down].\n";
    let mut own = Own::of(tables, body);
    for rating in ["2000 kg", "1500 kg"] {
        own.give(Answer::True);
        own.typed(rating);
        own.give(Answer::Release { said: "RV".to_owned() });
        own.give(Answer::Done);
    }
    own.give(Answer::True);
    own.give(Answer::Release { said: "RV".to_owned() });
    let (record, _) = own.record();
    compare(&record);
    let read: Vec<_> =
        record.readings.iter().map(|reading| (reading.step.as_str(), reading.attempts.len())).collect();
    assert_eq!(read, [("1.1", 1), ("1.3", 1)]);
    let verified: Vec<_> = record.holds.iter().map(|hold| hold.step.as_str()).collect();
    assert_eq!(verified, ["1.1", "1.3", "1.5"]);
}

/// What a hold point tightened stands with each of its verifications, and place by place under Fasteners.
#[test]
fn a_hold_point_says_what_it_tightened_each_time() {
    let mut own = Own::of(
        "[fasteners.nuts]\nwhat = \"nuts of the wheel\"\npositions = [\"1\", \"2\"]\nstages = [\"tight\"]\n\
[holds.wheel]\nwhat = \"the wheel is tight\"\nreadings = [\"nuts\"]\nrelease = \"lead\"\nlapses = [\"disturbed\"]\n",
        "1. [wheel] Tighten them: [nuts].\n2. Lower it.\n",
    );
    for again in [false, true] {
        if again {
            own.give(Answer::Disturbed { what: "the wheel was knocked".to_owned(), hold: None });
        }
        own.give(Answer::Done);
        own.give(Answer::Done);
        own.give(Answer::Release { said: "Robin Vale".to_owned() });
    }
    own.give(Answer::Done);
    let (record, text) = own.record();
    let [first, second] = &record.holds[0].verifications[..] else { panic!("{text}") };
    for (verification, from) in [(first, 0), (second, 2)] {
        let [told] = &verification.fasteners[..] else { panic!("{text}") };
        let acts: Vec<_> =
            record.fasteners[0].stages[0].places.iter().map(|place| &place.acts[from / 2]).collect();
        assert_eq!((told.from.entry, told.to.entry), (acts[0].when.entry, acts[1].when.entry));
    }
    assert_eq!(record.fasteners[0].state, "done");
    assert!(text.contains("fasteners: nuts of the wheel, place by place under Fasteners (from "), "{text}");
    compare(&record);
}

/// What was done in a pass that was given up was done then, and the record says when.
#[test]
fn a_step_that_was_done_in_a_pass_given_up_has_its_time() {
    let wipes = "[repeats.wipe]\nwhat = \"wipe\"\ntimes = 2\nnot_needed_after = \"once holds as well\"\n";
    let mut own = Own::of(wipes, "1. [wipe] Wipe it:\n   1. Take a cloth.\n2. Look.\n");
    own.give(Answer::Done);
    give_up(&mut own);
    own.give(Answer::Done);
    let (record, _) = own.record();
    let cloth = record.steps.iter().find(|step| step.number == "1.1.1").expect("the step");
    let changes: Vec<_> = cloth.changes.iter().map(|change| change.to.as_str()).collect();
    assert_eq!((cloth.state.as_str(), changes.as_slice()), ("done", ["done"].as_slice()));
}

/// What a hold point reads stands under each step that verifies it, counted from one there.
#[test]
fn a_reading_of_two_steps_stands_under_both() {
    let tables = "[holds.safe]\nwhat = \"it stands\"\nreadings = [\"tilt\"]\nrelease = \"lead\"\n\
[readings.tilt]\nwhat = \"tilt\"\nunit = \"deg\"\nmax = 2\nfails = \"Set it anew.\"\n";
    let mut own = Own::of(tables, "1. Release [safe].\n2. Work.\n3. [safe] Once more.\n4. Look.\n");
    for _ in 0..2 {
        own.typed("1");
        own.give(Answer::Release { said: "RV".to_owned() });
        own.give(Answer::Done);
    }
    let (_, text) = own.record();
    assert!(text.contains("\n1.1 tilt [tilt]: 1°"), "{text}");
    assert!(text.contains("\n1.3 tilt [tilt]: 1°"), "{text}");
}
