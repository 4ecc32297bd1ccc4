//! Named outcomes in place of a value, from a file of answers to what each command says of them.

use serde_json::Value;

use crate::run::drive::titled;
use crate::session::stage::{Stage, words_of};

const TABLES: &str = r#"[roles]
lead = "does the work"
helper = "reads again"
[tools.watch]
what = "stopwatch"
calibrated = true
[readings.burn_time]
what = "time until the strip goes out"
unit = "s"
max = 15
instrument = "watch"
second = "helper"
agree = "2 s"
instead = { "does not burn" = "pass", "never reached" = "fail" }
fails = "Take another strip."
[readings.look]
what = "look of the strip"
choices = ["clear", "charred"]
accept = ["clear"]
instead = { "strip is gone" = "information only" }
fails = "Clean the strip."
[conditions.burns]
if = 'burn_time != "does not burn"'
"#;

const BODY: &str = "1. Time it: [burn_time].\n2. [burns] Put it out.\n3. Look at it: [look].\n4. Tidy up.\n";

const HEAD: &str = r#"format = 1
clock = "2026-11-25T09:10:00+00:00"
answers = [
    { at = "lead", enter = "Robin Vale" },
    { at = "helper", enter = "Sam Hollis" },
    { at = "odometer", enter = "1 km" },
    { at = "scope", do = "true" },
    { at = "watch", enter = "SW-1", due = "2027-03-31" },
    { at = "burn_time", enter = "Never reached" },
    { at = "second burn_time", enter = "never reached" },
    { at = "burn_time", do = "again", reason = "another strip" },
    { at = "burn_time", enter = "does not burn" },
    { at = "second burn_time", enter = "does not burn" },
"#;

const REST: &str = r#"    { at = "look", enter = "3" },
    { at = "1.4", do = "done" },
    { at = "close", do = "close" },
"#;

fn stage(answers: &str) -> Stage {
    let stage = Stage::bare();
    stage.file("strip.md", &titled("Burn a strip", TABLES, BODY));
    stage.file("answers.toml", &format!("{HEAD}{answers}]\n"));
    stage
}

fn said(stage: &Stage, arguments: &[&str]) -> String {
    let ended = stage.bayhand(arguments);
    words_of(&format!("{}\n{}", ended.out, ended.err))
}

fn data(stage: &Stage, arguments: &[&str]) -> Value {
    serde_json::from_str(&stage.bayhand(arguments).out).expect("JSON")
}

#[test]
fn a_file_of_answers_says_an_outcome_by_its_words() {
    let stage = stage(REST);
    let said = said(&stage, &["run", "strip.md", "--answers", "answers.toml"]);
    for words in [
        "time until the strip goes out: never reached: fail, as the procedure says",
        "What to do: Take another strip.",
        "second reading, time until the strip goes out: does not burn",
        "attempt 2: does not burn (named outcome)",
        "the two readings agree",
        "pass, as the procedure says",
        "look of the strip: strip is gone",
        "Result: completed; 1 reading failed (taken again)",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    let read: Vec<Value> =
        stage.events().into_iter().filter(|event| event.get("reading").is_some()).collect();
    assert_eq!(read[0]["reading"]["value"]["instead"], "never reached", "{read:#?}");
    let record = data(&stage, &["record", "--json"]);
    let why = "condition not met: time until the strip goes out is not \"does not burn\" (it is)";
    assert!(said.contains(why), "{said}");
    assert_eq!(record["readings"][0]["attempts"][1]["answer"]["instead"], "does not burn");
    assert_eq!(record["readings"][0]["attempts"][1]["second"][0]["answer"]["instead"], "does not burn");
}

#[test]
fn a_rehearsal_takes_the_same_answers() {
    let stage = stage(REST);
    let said = said(&stage, &["rehearse", "strip.md", "--answers", "answers.toml"]);
    assert!(
        said.contains("time until the strip goes out: never reached: fail, as the procedure says"),
        "{said}"
    );
    assert!(said.contains("look of the strip: strip is gone"), "{said}");
    assert!(stage.runs().is_empty());
}

#[test]
fn status_tells_the_outcome_and_its_verdict() {
    let stage = stage("");
    said(&stage, &["run", "strip.md", "--answers", "answers.toml"]);
    assert!(said(&stage, &["status"]).contains("1.1 done: Time it: does not burn."));
    let status = data(&stage, &["status", "--json"]);
    let (first, second) = (&status["steps"][0], &status["steps"][1]);
    assert_eq!(first["results"][0]["shown"], "does not burn");
    assert_eq!(first["results"][0]["verdict"], "pass, as the procedure says");
    assert_eq!(second["status"], "not applicable");
}

#[test]
fn what_an_instrument_was_used_for_lists_outcomes_too() {
    let stage = stage(REST);
    said(&stage, &["run", "strip.md", "--answers", "answers.toml"]);
    let rows = data(&stage, &["impact", "SW-1", "--json"]);
    let values: Vec<&str> =
        rows.as_array().expect("rows").iter().filter_map(|row| row["value"].as_str()).collect();
    assert_eq!(values, ["never reached", "does not burn"]);
}

#[test]
fn show_says_what_can_come_out_instead_and_what_it_counts_as() {
    let said = said(&stage(""), &["show", "strip.md"]);
    for words in [
        "in s; at most 15 s; decision rule: simple acceptance; or instead \"does not burn\": pass, \"never reached\": fail;",
        "one of: clear, charred; good: clear; or instead \"strip is gone\": information only",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
}
