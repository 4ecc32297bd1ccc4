//! `bayhand check` and `bayhand show`

use std::collections::BTreeSet;
use std::fs;

use serde_json::Value;

use crate::session::stage::{Stage, words_of};

fn stage_with_ten_mistakes() -> Stage {
    let stage = Stage::with_small_procedure();
    let text =
        fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/cases/session/ten-mistakes.md"));
    stage.file("mistakes.md", &text.expect("a file of the tests"));
    stage
}

#[test]
fn a_good_procedure_with_its_sheet() {
    let stage = Stage::with_flush();
    let ended = stage.bayhand(&["check", "cooler-line-flush.md", "vehicle-example.toml"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    assert_eq!(
        ended.out,
        "cooler-line-flush.md: nothing to report\nvehicle-example.toml: nothing to report\n"
    );
}

#[test]
fn ten_mistakes_are_all_reported_at_once() {
    let stage = stage_with_ten_mistakes();
    let ended = stage.bayhand(&["check", "mistakes.md"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(1), ""));
    let errors = ended.out.lines().filter(|line| line.starts_with("error[")).count();
    assert!(errors >= 10, "{errors}\n{}", ended.out);
    assert!(ended.out.contains(&format!("mistakes.md: {errors} errors")), "{}", ended.out);
    assert!(ended.out.contains("mistakes.md:7:"), "the line of the first mistake\n{}", ended.out);
}

#[test]
fn as_json_each_finding_is_a_line_with_a_code_that_is_explained() {
    let stage = stage_with_ten_mistakes();
    let ended = stage.bayhand(&["check", "--json", "mistakes.md"]);
    assert_eq!(ended.code, Some(1));
    let found: Vec<Value> =
        ended.out.lines().map(|line| serde_json::from_str(line).expect("a line of JSON")).collect();
    assert!(found.len() >= 10, "{}", ended.out);
    let codes: BTreeSet<&str> = found.iter().map(|found| found["code"].as_str().expect("a code")).collect();
    for code in codes {
        assert_eq!(stage.bayhand(&["explain", code]).code, Some(0), "{code}");
    }
}

#[test]
fn a_sheet_that_lacks_a_value_is_reported_against_its_procedure() {
    let stage = Stage::with_small_procedure();
    let text = stage.text("vehicle.toml");
    stage.file("vehicle.toml", &text.replace("test_pressure", "tets_pressure"));
    let ended = stage.bayhand(&["check", "bleed.md", "vehicle.toml"]);
    assert!(ended.out.contains("test_pressure"), "{}", ended.out);
    assert!(!ended.out.contains("vehicle.toml: nothing to report"), "{}", ended.out);
}

#[test]
fn a_run_of_a_faulty_procedure_is_refused_with_the_same_findings() {
    let stage = stage_with_ten_mistakes();
    let ended = stage.bayhand(&["run", "mistakes.md"]);
    assert_eq!(ended.code, Some(1));
    assert!(ended.err.lines().filter(|line| line.starts_with("error[")).count() >= 10, "{}", ended.err);
    assert!(stage.runs().is_empty(), "no run was begun");
}

#[test]
fn show_tells_everything_that_is_needed_and_each_step() {
    let stage = Stage::with_small_procedure();
    let ended = stage.bayhand(&["show", "bleed.md"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    let flush = Stage::with_flush().bayhand(&["show", "cooler-line-flush.md"]);
    let of_flush = [
        "Must be so before the job: - engine, exhaust and fluid are cold",
        "Must be so at the end: - used solvent and used oil stand apart",
        "Safe stopping point: hose ends tied into the can",
        "at most 3 passes",
        "(repeated for each of: FROM COOLER, TO COOLER",
    ];
    for words in of_flush {
        assert!(words_of(&flush.out).contains(words), "{words}\n{}", flush.out);
    }
    let words = [
        "pressure gauge, good to ±1 psi",
        "service manual, demo circuit",
        "WARNING",
        "Hold point: Vehicle support",
    ];
    for words in words {
        assert!(words_of(&ended.out).contains(words), "{words}\n{}", ended.out);
    }
    for step in ["1.1", "1.2", "2.5.3", "2.10", "3.1"] {
        let stands = ended.out.lines().any(|line| line.trim_start().starts_with(&format!("{step} ")));
        assert!(stands, "{step}\n{}", ended.out);
    }
    assert_eq!(stage_with_ten_mistakes().bayhand(&["show", "mistakes.md"]).code, Some(1));
}

#[test]
fn a_file_of_answers_is_told_from_a_vehicle_sheet() {
    let stage = Stage::with_flush();
    let ended = stage.bayhand(&["check", "answers-example.toml"]);
    assert_eq!(ended.out, "answers-example.toml: nothing to report\n");
    stage.file(
        "wrong.toml",
        &stage.text("answers-example.toml").replace("do = \"close\"", "does = \"close\""),
    );
    let ended = stage.bayhand(&["check", "wrong.toml"]);
    assert_eq!(ended.code, Some(1));
    assert!(ended.out.contains("key-unknown") && ended.out.contains("does"), "{}", ended.out);
}

#[test]
fn a_file_of_answers_tells_all_its_mistakes_at_once() {
    let stage = Stage::bare();
    let text = "format = 1\nclock = \"yesterday\"\npace = \"soon\"\nanswers = [\n  { at = \"1.1\", does = \"done\" },\n  \
                { at = 2, do = \"done\" },\n  { do = \"done\", after = \"long\" },\n  { at = \"1.4\", sure = 1, do = done it },\n  \
                \"1.5\",\n]\n";
    stage.file("wrong.toml", text);
    let ended = stage.bayhand(&["check", "wrong.toml"]);
    assert_eq!(ended.code, Some(1));
    let told = [
        ("wrong.toml:2:", "this is not a time with an offset"),
        ("wrong.toml:3:", "this time cannot be used"),
        ("wrong.toml:5:", "answer 1 has no key `does`"),
        ("wrong.toml:6:", "`at` of answer 2 has the wrong type of value"),
        ("wrong.toml:7:", "answer 3 does not say `at`"),
        ("wrong.toml:7:", "this time cannot be used"),
        ("wrong.toml:8:", "this is not TOML"),
        ("wrong.toml:9:", "`answers` of the file of answers has the wrong type of value"),
    ];
    for (line, words) in told {
        assert!(ended.out.contains(line) && ended.out.contains(words), "{line} {words}\n{}", ended.out);
    }
    assert!(ended.out.contains("wrong.toml: 8 errors"), "{}", ended.out);
}
