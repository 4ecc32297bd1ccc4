//! What a record says of the run.

use bayhand::record::model::{Answer, Attempt, Reading, Record};
use bayhand::record::text::render;
use bayhand::record::{to_json, verify};
use bayhand::run::{Answer as Given, Input};

use super::support::{Bench, book, eventful, smooth};

fn reading<'record>(record: &'record Record, name: &str) -> &'record Reading {
    record.readings.iter().find(|reading| reading.name == name).unwrap()
}

fn typed(attempt: &Attempt) -> &str {
    match &attempt.answer {
        Answer::Quantity(quantity) => &quantity.text,
        Answer::Choice(text) | Answer::Instead(text) | Answer::Text(text) | Answer::Date(text) => text,
        Answer::List(_) | Answer::File(_) => panic!("not typed as one text"),
    }
}

/// Correct a value twice, all three values and both reasons are shown.
#[test]
fn a_reading_corrected_twice_shows_three_values_and_both_reasons() {
    let record = eventful();
    let [attempt] = &reading(&record, "supply").attempts[..] else { panic!("one attempt") };
    let before: Vec<(&str, &str)> = attempt
        .corrected
        .iter()
        .map(|corrected| match &corrected.before {
            Answer::Quantity(quantity) => (quantity.text.as_str(), corrected.reason.as_str()),
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(before, [("30 psi", "read the wrong scale"), ("31 psi", "the helper read it again")]);
    assert_eq!(typed(attempt), "30.5 psi");
    let text = render(&record, 80);
    for shown in ["30 psi", "31 psi", "30.5 psi", "read the wrong scale", "the helper read it again"] {
        assert!(text.contains(shown), "{shown}");
    }
}

/// Factor: 1 mi = 1.609344 km exactly (NIST SP 811, appendix B.8).
#[test]
fn a_reading_in_another_unit_keeps_text_and_factor() {
    let record = smooth();
    let odometer = record.vehicle.odometer.unwrap();
    assert_eq!(odometer.text, "152 300 mi");
    let asked = odometer.asked.unwrap();
    assert_eq!(asked.factor, "1.609344");
    assert_eq!(asked.offset, None);
    // 152300 times 1.609344, by hand.
    assert_eq!(asked.amount.number, "245103.0912");
}

/// The minimum is 0.6 of the supply, which was last corrected to 30.5 psi: 18.3 psi, by hand. The first attempt, 100 kPa,
/// is 14.5 psi.
#[test]
fn each_attempt_is_judged_as_it_stands_at_the_end() {
    let record = eventful();
    let attempts = &reading(&record, "far_end").attempts;
    assert_eq!(attempts.len(), 2);
    assert_eq!(attempts[0].judged.as_ref().unwrap().verdict, "fail");
    assert_eq!(attempts[0].set_aside.as_ref().unwrap().reason, "straightened a kink");
    let judged = attempts[1].judged.as_ref().unwrap();
    assert_eq!(
        (judged.verdict.as_str(), judged.decision_rule.as_deref()),
        ("pass", Some("simple acceptance"))
    );
    assert_eq!(judged.lower.as_ref().unwrap().amount.number, "18.3");
    let distance = judged.distance.as_ref().unwrap();
    assert_eq!((distance.limit.as_str(), distance.side.as_str()), ("lower limit", "above"));
    // 0.7 psi in kPa, by hand: 1 psi = 6.894757 kPa (NIST SP 811, appendix B.8).
    assert_eq!(distance.amount.shown, "4.83 kPa");
}

/// 1 L in 20 s is 3 L/min; 0.5 L in 20 s is 1.5 L/min, by hand.
#[test]
fn a_computed_value_shows_how_it_came_about() {
    let smooth = smooth();
    let result = smooth.values[0].result.as_ref().unwrap();
    assert_eq!(result.result.as_ref().unwrap().number, "3");
    assert_eq!(result.judged.verdict, "pass");
    assert!(result.trace.contains("1 L / 20 s"), "{}", result.trace);
    let eventful = eventful();
    let result = eventful.values[0].result.as_ref().unwrap();
    assert_eq!(result.result.as_ref().unwrap().number, "1.5");
    assert_eq!(result.judged.verdict, "fail");
}

/// The mark stands on the side of the limit that the verdict says, also where reading and limit differ in unit:
/// 100 kPa is below 18.3 psi.
#[test]
fn the_drawing_agrees_with_the_verdict() {
    let text = render(&eventful(), 80);
    assert!(text.contains("o  18.3 psi |---"), "{text}");
    assert!(text.contains("o  2 L/min |---"), "{text}");
}

#[test]
fn every_verification_of_a_hold_point_is_kept() {
    let record = eventful();
    let support = &record.holds[0];
    let again: Vec<Option<&str>> =
        support.verifications.iter().map(|verification| verification.again_because.as_deref()).collect();
    let disturbed = "disturbed: a jack was used beside it";
    assert_eq!(again, [None, Some("the run was taken up again"), Some(disturbed)]);
    let first = &support.verifications[0];
    assert_eq!(first.untrue[0].instead, "gravel under one stand");
    assert_eq!(first.confirmed.len(), 2);
    assert_eq!(first.readings[0].answer, "stood still");
    let released: Vec<&str> = first.released.iter().map(|release| release.name.as_str()).collect();
    assert_eq!(released, ["Robin Vale", "Sam Hollis"]);
    let last = support.verifications[2].ended.as_ref().unwrap();
    assert_eq!(last.why, "the hold point \"Tools clear, people clear\" ended it");
    assert_eq!(record.holds[1].verifications.len(), 1);
    assert_eq!(record.holds[1].verifications[0].ended, None);
}

/// The process ended half-way through a verification, and the run was taken up again.
#[test]
fn a_verification_that_was_broken_off_is_kept() {
    let mut bench = Bench::new();
    bench.begin().give(Given::True).take(Input::Resume).give(Given::AcceptBrief);
    bench.support().open_line().pressure().flow().clear().close();
    let record = bench.record();
    let first = &record.holds[0].verifications[0];
    assert_eq!((first.confirmed.len(), first.released.len()), (1, 0));
    assert_eq!(first.ended.as_ref().unwrap().why, "the run was taken up again");
    assert_eq!(record.holds[0].verifications.len(), 2);
    assert_eq!(record.sittings[0].ended.how, "broken off");
    assert_eq!(record.sittings[0].ended.when.entry, 8);
    assert_eq!(verify(&to_json(&record)), Ok(()));
}

#[test]
fn a_deferred_step_shows_why_and_when_it_was_done() {
    let mut bench = Bench::new();
    bench.begin().support().open_line().typed("30 psi").typed("140");
    let before = book().procedure.steps().iter().find(|step| step.number == "2.6").unwrap().id;
    bench.give(Given::Defer { before, reason: "the key is missing".to_owned() });
    bench
        .give(Given::Done)
        .pass(6)
        .typed("4")
        .give(Given::Good)
        .typed("clear")
        .typed("2024-05-01")
        .give(Given::Done);
    bench.flow().clear().close();
    let record = bench.record();
    let turns: Vec<(&str, Option<&str>)> = record
        .steps
        .iter()
        .find(|step| step.number == "2.4")
        .unwrap()
        .changes
        .iter()
        .map(|change| (change.to.as_str(), change.reason.as_deref()))
        .collect();
    assert_eq!(turns, [("deferred (until step 2.6)", Some("the key is missing")), ("done", None)]);
    assert_eq!(verify(&to_json(&record)), Ok(()));
}

#[test]
fn deviations_name_step_reason_and_disposition() {
    let record = eventful();
    let said: Vec<(&str, &str, Option<&str>)> = record
        .deviations
        .all
        .iter()
        .map(|deviation| {
            (deviation.step.as_str(), deviation.reason.as_str(), deviation.disposition.as_deref())
        })
        .collect();
    assert_eq!(
        said,
        [
            ("2.4", "the valve has no stem", Some("use as is")),
            ("2.6", "the gauge held", Some("use as is")),
            ("3.2", "new hose is ordered", Some("repair")),
        ]
    );
    assert_eq!(record.deviations.all[0].justification.as_deref(), Some("nothing to count"));
    assert_eq!(record.deviations.count, 3);
    assert_eq!(smooth().deviations.count, 0);
}

#[test]
fn steps_carry_their_state_and_who_did_them() {
    let record = smooth();
    let step = |number: &str| record.steps.iter().find(|step| step.number == number).unwrap();
    assert_eq!(step("2.1").who, ["Sam Hollis"]);
    assert_eq!(step("1.2").who, ["Robin Vale"]);
    assert_eq!(step("2.2").state, "done");
    assert_eq!(step("2.3").state, "not applicable");
    let why = "condition not met: pressure of the supply is below 20 psi (it is 30 psi)";
    assert_eq!(step("2.3").why.as_deref(), Some(why));
    assert!(step("2.1").text.ends_with("at the supply: 30 psi."), "{}", step("2.1").text);
}

#[test]
fn waits_and_sittings_carry_their_times() {
    let record = eventful();
    let settle = &record.waits[0];
    let start = &settle.starts[0];
    assert_eq!(start.late[0].reason, "the gauge held");
    assert!(start.due.is_some() && start.not_before.is_some() && start.used.is_some());
    let how: Vec<&str> = record.sittings.iter().map(|sitting| sitting.ended.how.as_str()).collect();
    assert_eq!(how, ["suspended", "closed"]);
    assert_eq!(record.sittings[0].ended.left.as_deref(), Some("line open, port capped"));
    assert!(record.sittings[1].brief_read.is_some());
    let kinds: Vec<&str> = record.notes.iter().map(|note| note.kind.as_str()).collect();
    assert_eq!(
        kinds,
        [
            "between",
            "people",
            "note",
            "between",
            "between",
            "people",
            "people",
            "between",
            "way",
            "disturbed"
        ],
        "scope, approval, a protection kept, one step looked at again; one section ends where the job can rest"
    );
}

#[test]
fn vehicle_values_carry_their_source() {
    let values = smooth().vehicle.values;
    let sources: Vec<&str> = values.iter().map(|value| value.source.as_str()).collect();
    assert_eq!(sources, ["workshop manual, page 7-31", "Tarnbeck 40 workshop manual (invented), page 7-36"]);
    assert!(values[0].entered.is_some());
    assert!(values[1].entered.is_none());
}
