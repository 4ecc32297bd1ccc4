//! How readings are taken, from a file of answers to the record: instruments, what was found and what is left, files,
//! what was corrected before the first reading.

use std::fs;

use bayhand::record::verify;
use serde_json::Value;

use crate::run::drive::titled;
use crate::session::stage::{Ended, Stage, words_of};

const PROCEDURE: &str = r#"+++
format = 1
revision = "A"
date = 2026-11-25
author = "a tester"
scope = "an invented vehicle"
level_of_use = "continuous"
materials = "none"
parts = "none"
required = "none"
close_up = "none"
hazards = "none"
[roles]
lead = "does the work"
[tools.wrench]
what = "torque wrench"
calibrated = true
range = ["20 N·m", "200 N·m"]
[vehicle.gap]
what = "least gap"
unit = "mm"
find = "manual"
[critical.cut]
what = "the seal is cut open"
type = "cut open"
[watches.cool]
what = "case stays below 40 °C"
unit = "°C"
below = "40 °C"
readings = ["case_temp"]
[readings.gap_before]
what = "gap"
unit = "mm"
min = 'gap'
as_found = true
[readings.gap_after]
what = "gap"
unit = "mm"
min = 'gap'
as_left = "gap_before"
[readings.bolt]
what = "torque of the bolt"
unit = "N·m"
min = "45 N·m"
max = "55 N·m"
instrument = "wrench"
too_high = "Loosen it and tighten it anew."
[readings.case_temp]
what = "temperature of the case"
unit = "°C"
information_only = true
[readings.nominal_gap]
what = "gap of the other plug"
unit = "mm"
nominal = "0.9 mm"
[readings.photo]
what = "photo of the plug"
kind = "file"
+++
# Set the plug

1. Read the gap [gap_before].
2. [cut] Cut the seal open. From here on: [cool].
3. Set it, and read it again: [gap_after]. The other one: [nominal_gap].
4. Read the case: [case_temp].
5. Tighten it: [bolt]. Let it warm up again [cool].
6. Take a photo: [photo].
"#;

const HEAD: &str = "format = 1\nclock = \"2026-11-25T10:00:00+01:00\"\nanswers = [\n";

/// The answers up to the photo.
const ANSWERS: &str = r#"    { at = "lead", enter = "Robin Vale" },
    { at = "odometer", enter = "187400 km" },
    { at = "gap", enter = "0.8 mm", source = "manual, page 12" },
    { at = "scope", do = "true" },
    { at = "gap_before", enter = "0.6 mm" },
    { at = "cut", do = "correct", reading = "odometer", enter = "178400 km", reason = "two digits exchanged" },
    { at = "cut", do = "correct", reading = "gap", enter = "0.85 mm", source = "manual, page 13", reason = "other engine" },
    { at = "cut", enter = "cut open" },
    { at = "1.2", do = "done" },
    { at = "gap_after", enter = "0.9 mm" },
    { at = "nominal_gap", enter = "0.95 mm" },
    { at = "nominal_gap", do = "good" },
    { at = "case_temp", enter = "45 °C" },
    { at = "case_temp", do = "again", reason = "let it cool" },
    { at = "case_temp", enter = "38 °C" },
    { at = "wrench", enter = "TW-1", due = "2026-10-31" },
    { at = "wrench", do = "accept", disposition = "use as is", reason = "no other here" },
    { at = "bolt", enter = "60 N·m" },
    { at = "bolt", do = "again", reason = "loosened" },
    { at = "bolt", do = "instrument", tool = "wrench", enter = "TW-2", due = "2027-03-31" },
    { at = "bolt", enter = "50 N·m" },
"#;
const REST: &str = "    { at = \"close\", do = \"close\" },\n]\n";

fn stage() -> Stage {
    let stage = Stage::bare();
    stage.file("plug.md", PROCEDURE);
    fs::create_dir(stage.path("given")).expect("a folder");
    stage.file("given/plug.jpg", "not really a picture");
    stage
}

fn run(stage: &Stage, photo: &str) -> Ended {
    let photo = format!("    {{ at = \"photo\", enter = \"{photo}\" }},\n");
    stage.file("given/answers.toml", &format!("{HEAD}{ANSWERS}{photo}{REST}"));
    stage.bayhand(&["run", "plug.md", "--answers", "given/answers.toml"])
}

/// A run from the first answer to the record: its stage, what was shown, the record as data and as text.
fn recorded() -> (Stage, Ended, Value, String) {
    let stage = stage();
    let ended = run(&stage, "plug.jpg");
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
    let json = fs::read_to_string(stage.run().join("record.json")).expect("a record");
    assert_eq!(verify(&json), Ok(()));
    let text = fs::read_to_string(stage.run().join("record.txt")).expect("a record");
    let record = serde_json::from_str(&json).expect("JSON");
    (stage, ended, record, text)
}

fn reading<'r>(record: &'r Value, name: &str) -> &'r Value {
    let readings = record["readings"].as_array().expect("readings");
    readings.iter().find(|reading| reading["name"] == name).expect("the reading")
}

#[test]
fn the_record_carries_the_instrument_of_each_reading_as_it_stood_then() {
    let (_stage, _, record, text) = recorded();
    let attempts = &reading(&record, "bolt")["attempts"];
    assert_eq!(attempts[0]["instrument"]["identity"], "TW-1");
    assert_eq!(attempts[0]["instrument"]["due"], "2026-10-31");
    assert_eq!(attempts[0]["instrument"]["overdue"], 1);
    assert_eq!(attempts[1]["instrument"]["identity"], "TW-2");
    assert!(attempts[1]["instrument"]["overdue"].is_null());
    let deviation = &record["deviations"]["all"][0];
    assert_eq!(
        deviation["departs"],
        "used although its calibration is overdue: torque wrench: TW-1, due 2026-10-31"
    );
    assert_eq!(deviation["step"], "1.5");
    let words = words_of(&text);
    assert!(words.contains("TW-1, calibration due 2026-10-31, used overdue: deviation 1"), "{text}");
}

#[test]
fn the_record_shows_what_was_found_beside_what_is_left() {
    let (_stage, ended, record, text) = recorded();
    let pair = &record["pairs"][0];
    assert_eq!(
        (&pair["as_found"]["shown"], &pair["as_found"]["verdict"]),
        (&"0.6 mm".into(), &"fail".into())
    );
    assert_eq!((&pair["as_left"]["shown"], &pair["as_left"]["verdict"]), (&"0.9 mm".into(), &"pass".into()));
    assert!(text.contains("as found 0.6 mm (fail); as left 0.9 mm (pass)"), "{text}");
    assert!(ended.out.contains("as found: fail"), "{}", ended.out);
}

#[test]
fn the_record_keeps_what_the_odometer_and_a_vehicle_value_were_said_to_be() {
    let (_stage, _, record, text) = recorded();
    let vehicle = &record["vehicle"];
    assert_eq!(vehicle["odometer"]["text"], "178400 km");
    assert_eq!(vehicle["odometer_before"][0]["reason"], "two digits exchanged");
    assert_eq!(vehicle["odometer_before"][0]["value"]["quantity"]["text"], "187400 km");
    assert_eq!(vehicle["values"][0]["value"]["quantity"]["text"], "0.85 mm");
    assert_eq!(vehicle["values"][0]["before"][0]["source"], "manual, page 12");
    assert!(text.contains("corrected, before: 187400 km"), "{text}");
    let judged = &reading(&record, "gap_before")["attempts"][0]["judged"];
    // As the limit stands at the end, the corrected one.
    assert_eq!(judged["lower"]["amount"]["shown"], "0.85 mm", "{judged}");
}

#[test]
fn each_sort_of_reading_records_what_was_judged_and_by_whom() {
    // No limit, a nominal, limits.
    let (_stage, _, record, _) = recorded();
    for (name, verdict) in [("case_temp", "fail"), ("nominal_gap", "good"), ("bolt", "fail")] {
        let attempt = &reading(&record, name)["attempts"][0];
        assert_eq!(attempt["judged"]["verdict"], verdict, "{name}");
        assert_eq!(attempt["who"][0], "Robin Vale");
    }
    let cool = &reading(&record, "case_temp")["attempts"][1]["judged"];
    assert_eq!(cool["verdict"], "information only");
    let nominal = &reading(&record, "nominal_gap")["attempts"][0]["judged"];
    assert_eq!(nominal["words"], "nominal 0.9 mm, good by Robin Vale");
    assert_eq!(nominal["nominal"]["shown"], "0.9 mm");
    // The limit in force, and what chose it.
    let gap = &reading(&record, "gap_after")["attempts"][0]["judged"]["lower"];
    assert_eq!((&gap["amount"]["shown"], &gap["formula"]), (&"0.85 mm".into(), &"gap".into()));
}

#[test]
fn a_limit_in_force_is_named_where_it_was_broken() {
    let (_stage, ended, record, _) = recorded();
    let words = reading(&record, "case_temp")["attempts"][0]["judged"]["words"].to_string();
    assert!(words.contains("5 °C above the limit of 40 °C in force (case stays below 40 °C)"), "{words}");
    assert!(ended.out.contains("What to do: Loosen it and tighten it anew."), "{}", ended.out);
}

#[test]
fn a_file_lies_with_the_run_whatever_becomes_of_the_original() {
    let (stage, _, record, _) = recorded();
    let file = &reading(&record, "photo")["attempts"][0]["answer"]["file"];
    // SHA-256 by `printf 'not really a picture' | sha256sum` (GNU coreutils).
    let sha256 = "fe1a4ab1fb6347036bead73597d5d2958b26ac0b96f68ca2f6dcee53a50f297e";
    assert_eq!(
        (&file["name"], &file["size"], &file["sha256"]),
        (&"plug.jpg".into(), &20.into(), &sha256.into())
    );
    let kept = stage.run().join("files").join(file["kept_as"].as_str().expect("a name"));
    fs::write(stage.path("given/plug.jpg"), "something else").expect("an edit");
    fs::rename(stage.path("given/plug.jpg"), stage.path("given/moved.jpg")).expect("a move");
    assert_eq!(fs::read_to_string(kept).expect("the copy"), "not really a picture");
    let run = stage.run_name();
    let record = stage.bayhand(&["record", &run, "--json"]);
    assert_eq!(verify(&record.out), Ok(()));
}

#[test]
fn every_reading_taken_with_an_instrument_is_listed_over_all_runs() {
    let (stage, ..) = recorded();
    let again = stage.bayhand(&["run", "plug.md", "--new", "--answers", "given/answers.toml"]);
    assert_eq!(again.code, Some(0), "{}", again.err);
    let listed = stage.bayhand(&["impact", "tw-1", "--since", "2026-11-25"]);
    let said = words_of(&listed.out);
    let bolt = "step 1.5, torque of the bolt: 60 N·m; TW-1, calibration due 2026-10-31";
    assert_eq!((listed.code, said.matches(bolt).count()), (Some(0), 2), "{said}");
    let later = stage.bayhand(&["impact", "TW-1", "--since", "2026-11-26"]);
    let none =
        "No reading was taken with TW-1 since 2026-11-26, and none with an instrument that nobody named.";
    assert_eq!(words_of(&later.out), none);
    let by_tool = words_of(&stage.bayhand(&["impact", "torque wrench"]).out);
    assert_eq!(by_tool.matches("torque of the bolt").count(), 4, "by the tool's name too: {by_tool}");
    let json = stage.bayhand(&["impact", "TW-2", "--json"]).out;
    let rows: Value = serde_json::from_str(&json).expect("JSON");
    assert_eq!((rows.as_array().map(Vec::len), &rows[0]["value"]), (Some(2), &"50 N·m".into()));
}

#[test]
fn a_file_that_cannot_be_kept_is_refused_and_asked_for_again() {
    let stage = stage();
    stage.file("given/empty.jpg", "");
    for (path, why) in [
        ("none.jpg", "`none.jpg` is not kept: there is nothing of this name; check the path"),
        (".", "`.` is not kept: it is a folder, not a file; name a file"),
        ("empty.jpg", "`empty.jpg` is not kept: it is empty"),
    ] {
        let ended = run(&stage, path);
        assert_eq!(ended.code, Some(1), "{}", ended.out);
        assert!(ended.err.contains(why), "{path}: {}", ended.err);
        fs::remove_dir_all(stage.data()).expect("the runs are removed");
    }
    assert_eq!(run(&stage, "plug.jpg").code, Some(0));
}

const FLANGE: &str = r#"[tools.wrench]
what = "torque wrench"
calibrated = true
[fasteners.flange]
what = "flange bolts"
positions = ["1", "2"]
stages = ["by hand", { what = "full", torque = "50 N·m", within = "4 %", read = true }]
instrument = "wrench"
"#;

const TIGHT: &str = r#"format = 1
clock = "2026-11-25T10:00:00+01:00"
answers = [
    { at = "lead", enter = "Robin Vale" },
    { at = "odometer", enter = "187400 km" },
    { at = "scope", do = "true" },
    { at = "flange by hand 1", do = "done" },
    { at = "flange by hand 2", do = "done" },
    { at = "wrench", enter = "TW-9", due = "2027-03-31" },
    { at = "flange stage full", do = "stage set" },
    { at = "flange full 1", enter = "50 N·m" },
    { at = "flange full 2", enter = "51 N·m" },
    { at = "close", do = "close" },
]
"#;

/// Who recalls a wrench finds every bolt that was tightened with it, and none that was turned by hand.
#[test]
fn fasteners_are_found_by_the_wrench_that_tightened_them() {
    let stage = Stage::bare();
    stage.file("flange.md", &titled("Tighten the flange", FLANGE, "1. Tighten the [flange].\n"));
    stage.file("tight.toml", TIGHT);
    let ended = stage.bayhand(&["run", "flange.md", "--answers", "tight.toml"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
    assert!(words_of(&ended.out).contains("with TW-9, calibration due 2027-03-31"), "{}", ended.out);
    let json = fs::read_to_string(stage.run().join("record.json")).expect("a record");
    assert_eq!(verify(&json), Ok(()));
    let said = words_of(&stage.bayhand(&["impact", "TW-9"]).out);
    assert!(
        said.contains("1, stage full (flange bolts): 50 N·m; TW-9, calibration due 2027-03-31"),
        "{said}"
    );
    assert_eq!((said.matches("stage full").count(), said.matches("by hand").count()), (2, 0), "{said}");
}
