//! What happens in the job that comes with bayhand, told by its records: not all goes well in it.

use serde_json::Value;

use crate::session::stage::Stage;

fn record(stage: &Stage, run: &str) -> Value {
    let told = stage.bayhand(&["record", run, "--json"]);
    serde_json::from_str(&told.out).unwrap_or_else(|error| panic!("{run}: {error}\n{}", told.err))
}

/// The attempts at a reading, over all passes: what was answered, and how it was judged.
fn attempts(record: &Value, reading: &str) -> Vec<(String, String)> {
    let readings = record["readings"].as_array().expect("readings").iter();
    let attempts = readings
        .filter(|one| one["name"] == reading)
        .flat_map(|one| one["attempts"].as_array().expect("attempts"));
    let text = |value: &Value| value.as_str().map_or_else(|| value.to_string(), str::to_owned);
    attempts.map(|one| (text(&one["answer"]["choice"]), text(&one["judged"]["verdict"]))).collect()
}

/// Everything that the example job has to show is in it.
pub fn are_all_there(stage: &Stage) {
    two_deviations_are_disposed_of(stage);
    a_hold_point_lapses_and_is_verified_anew(stage);
    a_reading_fails_and_is_taken_again(stage);
    an_entry_is_corrected_and_handed_on_as_corrected(stage);
    a_seized_fastener_is_cut_and_followed_up(stage);
    the_converter_is_away_for_days(stage);
    an_evening_ends_where_it_may_and_goes_on(stage);
    a_protection_is_handed_on_over_the_nights(stage);
    what_was_left_is_settled_or_carried_out_by_name(stage);
}

fn two_deviations_are_disposed_of(stage: &Stage) {
    for (run, departs) in [
        ("2026-11-14-bench-and-seals", "out of sequence"),
        ("2026-11-30-other-oils", "tool or part substituted"),
    ] {
        let record = record(stage, run);
        let one = &record["deviations"]["all"][0];
        assert_eq!((&one["departs"], &one["disposition"]), (&departs.into(), &"use as is".into()), "{run}");
    }
}

fn a_hold_point_lapses_and_is_verified_anew(stage: &Stage) {
    let record = record(stage, "2026-11-08-driveshafts-off");
    let support = record["holds"].as_array().expect("holds").iter().find(|hold| hold["name"] == "support");
    let verified = support.expect("the support")["verifications"].as_array().expect("verifications");
    assert_eq!(verified.len(), 2, "{verified:?}");
    let why = verified[1]["again_because"].as_str().expect("why it lapsed");
    assert!(why.starts_with("disturbed"), "{why}");
}

fn a_reading_fails_and_is_taken_again(stage: &Stage) {
    let marks = attempts(&record(stage, "2026-11-08-driveshafts-off"), "marks");
    let verdicts: Vec<&str> = marks.iter().map(|(_, verdict)| verdict.as_str()).collect();
    assert_eq!(verdicts, ["fail", "pass", "pass"], "{marks:?}");
}

/// What ran out was typed wrongly: both entries are kept, and the refill reckons with the second.
fn an_entry_is_corrected_and_handed_on_as_corrected(stage: &Stage) {
    let off = record(stage, "2026-11-07-battery-drain-exhaust");
    let drained = off["readings"].as_array().expect("readings").iter().find(|one| one["name"] == "drained");
    let attempt = &drained.expect("what ran out")["attempts"][0];
    assert_eq!(attempt["answer"]["quantity"]["text"], "3.8", "{attempt}");
    assert_eq!(attempt["corrected"][0]["before"]["quantity"]["text"], "4.8", "{attempt}");
    let fill = record(stage, "2026-12-02-first-fill-and-start");
    let values = fill["vehicle"]["values"].as_array().expect("values");
    let drained = values.iter().find(|value| value["name"] == "drained").expect("it is handed on");
    assert!(drained["value"].to_string().contains("3.8"), "{drained}");
}

/// Soaked over a night, split, its stud drawn, its thread run through; at the refit a new one goes where it was.
fn a_seized_fastener_is_cut_and_followed_up(stage: &Stage) {
    let off = record(stage, "2026-11-07-battery-drain-exhaust");
    let found = |reading: &str| -> Vec<String> {
        attempts(&off, &format!("seized-fastener/{reading}")).into_iter().map(|(choice, _)| choice).collect()
    };
    assert_eq!(found("try_clean"), ["came loose", "still stuck"]);
    assert_eq!(found("try_soaked"), ["still stuck"]);
    assert_eq!(found("way"), ["splitter, saw or chisel"]);
    assert_eq!(found("hole_now"), ["runs in to the end"]);
    assert_eq!(found("state"), ["out, used again", "out, new one needed"]);
    let typed = |note: &Value| note["text"].as_str().is_some_and(|text| text.starts_with("typed \"cut it\""));
    assert_eq!(off["notes"].as_array().expect("notes").iter().filter(|note| typed(note)).count(), 1);
    let on = record(stage, "2026-11-29-refit-around");
    let values = on["vehicle"]["values"].as_array().expect("values");
    let new = values.iter().find(|value| value["name"] == "exhaust_new").expect("what was cut is handed on");
    assert_eq!(new["value"]["text"], "1");
    let source = new["source"].as_str().expect("a source");
    assert!(source.contains("of run 2026-11-07-battery-drain-exhaust"), "{source}");
    assert_eq!(attempts(&on, "exhaust_threads"), [("all run on to the end".to_owned(), "pass".to_owned())]);
}

fn the_converter_is_away_for_days(stage: &Stage) {
    let at = |record: &Value, what: &str| -> jiff::Timestamp {
        record[what]["at"].as_str().expect("a time").parse().expect("a time")
    };
    let gone = at(&record(stage, "2026-11-12-converter-away"), "closed");
    let back = at(&record(stage, "2026-11-27-converter-back"), "began");
    assert!(back.duration_since(gone) >= jiff::SignedDuration::from_hours(7 * 24), "{gone} to {back}");
}

/// The unit hangs on bell bolts and crossmember over the night; the support is verified anew before anybody goes under it.
fn an_evening_ends_where_it_may_and_goes_on(stage: &Stage) {
    let record = record(stage, "2026-11-28-transmission-in");
    assert_eq!(record["sittings"].as_array().expect("sittings").len(), 2);
    let holds = record["holds"].as_array().expect("holds");
    let times = |name: &str| {
        let hold = holds.iter().find(|hold| hold["name"] == name).unwrap_or_else(|| panic!("{name}"));
        hold["verifications"].as_array().expect("verifications").len()
    };
    assert_eq!((times("support"), times("free")), (2, 1));
}

/// On its stands from the first evening under it to the last: looked at again each evening, ended once.
fn a_protection_is_handed_on_over_the_nights(stage: &Stage) {
    let found = |run: &str| -> Vec<String> {
        let record = record(stage, run);
        let found = record["found_in_force"].as_array().cloned().unwrap_or_default();
        found.iter().map(|one| one["what"].as_str().expect("words").to_owned()).collect()
    };
    let stands = "vehicle on stands".to_owned();
    assert!(found("2026-10-25-decision-and-orders").is_empty());
    assert_eq!(found("2026-11-07-battery-drain-exhaust"), std::slice::from_ref(&stands));
    let out = found("2026-11-27-converter-back");
    let all = ["battery off", "engine tail supported", "vehicle on stands"];
    assert!(all.iter().all(|what| out.iter().any(|found| found == what)) && out.len() == 3, "{out:?}");
    assert!(!found("2026-11-29-refit-around").contains(&"engine tail supported".to_owned()));
    assert!(found("2026-12-02-first-fill-and-start").contains(&stands));
    assert!(found("2026-12-03-level-hot").is_empty(), "on its wheels, the battery on");
}

fn what_was_left_is_settled_or_carried_out_by_name(stage: &Stage) {
    let record = record(stage, "2026-12-20-hand-over");
    let ends = record["loose_ends"].as_array().expect("loose ends");
    let became = |what: &str| {
        let end = ends.iter().find(|end| end["what"].as_str().is_some_and(|own| own.starts_with(what)));
        end.unwrap_or_else(|| panic!("{what}: {ends:?}"))["became"].as_str().expect("words").to_owned()
    };
    assert_eq!(ends.len(), 5);
    assert!(became("fit a new fastener").starts_with("settled: new stud and nut"));
    assert!(became("free the fill plug").starts_with("carried out of the job, Robin Vale sees to it"));
}
