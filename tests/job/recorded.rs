//! The record of a job: in sentences first, from its runs alone, sealed, and no run in it can be swapped unnoticed.

use std::fs;

use bayhand::job::record::model::JobRecord;
use bayhand::job::record::text::render;
use bayhand::record::seal_of;
use serde_json::Value;

use super::balances::stage;
use crate::session::stage::{Ended, Stage, words_of};

const KEPT: &str = "data/jobs/2026-11-21-oil/record.json";

fn walk(stage: &Stage, answers: &str) -> Ended {
    let ended = stage.bayhand(&["run", "oil.md", "--vehicle", "sheet.toml", "--answers", answers]);
    assert_eq!(ended.code, Some(0), "{}\n{}", ended.out, ended.err);
    ended
}

fn record(stage: &Stage) -> Ended {
    let ended = stage.bayhand(&["record", "oil.md"]);
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    ended
}

#[test]
fn an_answered_job_ends_with_its_record() {
    let stage = stage();
    let walked = words_of(&walk(&stage, "whole.toml").out);
    let of_job = walked.rsplit("RECORD OF THE JOB").next().unwrap_or_default().to_owned();
    for words in [
        "Oil the oil is old",
        "Result: complete: 2 of 2 procedures closed, no deviation",
        "2 procedures were done, 1 h 50 min by the entries: Drain (2026-11-21); Fill (2026-11-22).",
        "oil, in less out: the sum is not whole, 1 without a number.",
        "plus 2.7 L: went in [filled in fill] run: 2026-11-22-fill, 2026-11-22 09:30:00 +00:00, entry 4",
        "worth: 55 money",
        "seal of its record:",
    ] {
        assert!(of_job.contains(words), "{words}\n{of_job}");
    }
    let again = record(&stage);
    assert!(again.err.is_empty(), "{}", again.err);
    assert_eq!(words_of(&again.out).rsplit("RECORD OF THE JOB").next(), Some(of_job.as_str()));
    assert_eq!(stage.text("data/jobs/2026-11-21-oil/record.txt"), again.out);
}

/// It refuses nothing: what is open stands in it, and nothing is kept of it, for the next one will be another.
#[test]
fn a_job_that_is_not_finished_says_what_is_open() {
    let stage = stage();
    walk(&stage, "half.toml");
    let said = words_of(&record(&stage).out);
    for words in [
        "RECORD OF THE JOB, NOT FINISHED",
        "Open: Fill it: not begun",
        "plus OPEN, not begun: Fill it [filled in fill]",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    assert!(!stage.path(KEPT).exists());
}

/// Its seal is that over its content, and each run stands in it with the seal of its own record.
#[test]
fn it_is_sealed_and_its_runs_with_it() {
    let stage = stage();
    walk(&stage, "whole.toml");
    let data: Value =
        serde_json::from_str(&stage.bayhand(&["record", "oil.md", "--json"]).out).expect("JSON");
    let read: JobRecord = serde_json::from_value(data.clone()).expect("a record");
    assert_eq!(seal_of(&data), Ok(read.seal.sha256.clone()));
    for run in &read.runs {
        let own: Value =
            serde_json::from_str(&stage.text(&format!("data/runs/{}/record.json", run.run))).expect("JSON");
        assert_eq!(seal_of(&own), Ok(run.seal.clone()), "{}", run.run);
    }
    let mut changed = data;
    changed["balances"][0]["rows"][0]["amount"]["number"] = "9".into();
    assert_ne!(seal_of(&changed), Ok(read.seal.sha256));
}

/// Another run in the place of one, sound in itself, shows; so does a kept record that was edited.
#[test]
fn a_swapped_run_is_noticed() {
    let (stage, other) = (stage(), stage());
    walk(&stage, "whole.toml");
    other.file("drain.toml", &other.text("drain.toml").replace("2 qt", "3 qt"));
    walk(&other, "whole.toml");
    let run = "data/runs/2026-11-21-drain";
    fs::rename(stage.path(run), stage.path("aside")).expect("it is moved");
    fs::create_dir(stage.path(run)).expect("a folder");
    for file in fs::read_dir(other.path(run)).expect("a folder") {
        let file = file.expect("an entry");
        fs::copy(file.path(), stage.path(run).join(file.file_name())).expect("it is copied");
    }
    let told = words_of(&stage.bayhand(&["record", "oil.md"]).err);
    let words = "run 2026-11-21-drain is not the one that stood in the kept record: its seal is another";
    assert!(told.contains(words), "{told}");
    assert_eq!(stage.bayhand(&["record", "oil.md"]).code, Some(1));
    fs::remove_dir_all(stage.path(run)).expect("it is removed");
    let told = words_of(&stage.bayhand(&["record", "oil.md"]).err);
    assert!(!told.contains("stood in the kept record"), "a job that is not complete is not compared: {told}");
    fs::rename(stage.path("aside"), stage.path(run)).expect("it is moved back");
    assert!(stage.bayhand(&["record", "oil.md"]).err.is_empty());
    fs::write(stage.path(KEPT), stage.text(KEPT).replace("an invented one", "another one")).expect("a file");
    let told = words_of(&stage.bayhand(&["record", "oil.md"]).err);
    assert!(told.contains("the kept record was changed: its seal is not that of its content"), "{told}");
}

/// What the data says, the text says too; a time is shown to the second.
#[test]
fn data_and_text_say_the_same() {
    let (oil, due) = (stage(), super::due_job::walked());
    walk(&oil, "whole.toml");
    for (stage, job) in [(&oil, "oil.md"), (&due, "service.md")] {
        let data: Value = serde_json::from_str(&stage.bayhand(&["record", job, "--json"]).out).expect("JSON");
        let packed = |text: &str| text.chars().filter(|letter| !letter.is_whitespace()).collect::<String>();
        let text = packed(&render(&serde_json::from_value(data.clone()).expect("a record"), 80));
        let mut leaves = Vec::new();
        gather("", &data, &mut leaves);
        for (at, leaf) in leaves {
            let is_exact = at.ends_with("/number") && leaf.contains('/');
            let shown = match leaf.split_once('T') {
                Some((day, rest)) if at.ends_with("/at") => format!("{day}{}{}", &rest[..8], &rest[12..]),
                _ => packed(&leaf),
            };
            assert!(is_exact || text.contains(&shown), "{job} {at}: {leaf}");
        }
    }
}

fn gather(at: &str, value: &Value, found: &mut Vec<(String, String)>) {
    match value {
        Value::Object(map) => {
            for (key, value) in map {
                gather(&format!("{at}/{key}"), value, found);
            }
        }
        Value::Array(list) => list.iter().for_each(|value| gather(at, value, found)),
        Value::String(text) => found.push((at.to_owned(), text.clone())),
        other => found.push((at.to_owned(), other.to_string())),
    }
    found.retain(|(_, leaf)| leaf != "null");
}
