//! `bayhand runs`, `status` and `record`

use serde_json::Value;

use crate::session::stage::{Ended, Stage, words_of};

const RUN: [&str; 4] = ["run", "bleed.md", "--vehicle", "vehicle.toml"];

/// A run that stands at the pressure, its protection in force.
fn open_run() -> Stage {
    let stage = Stage::with_small_procedure();
    let ended = stage.bayhand_fed(&RUN, "Robin Vale\nSam Hollis\n187400 km\ny\nRV, SH\na\ny\ny\nRV\nSH\nd\n");
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    stage
}

fn closed_run() -> Stage {
    let stage = Stage::with_flush();
    let run = ["run", "cooler-line-flush.md", "--vehicle", "vehicle-example.toml"];
    let ended = stage.bayhand(&[&run[..], &["--answers", "answers-example.toml"]].concat());
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    stage
}

fn json(ended: &Ended) -> Value {
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    serde_json::from_str(&ended.out).expect("JSON")
}

#[test]
fn no_run_yet() {
    let stage = Stage::bare();
    assert!(stage.bayhand(&["runs"]).out.starts_with("There is no run yet"));
    assert_eq!(json(&stage.bayhand(&["runs", "--json"])), Value::Array(Vec::new()));
    assert_eq!(stage.bayhand(&["status"]).code, Some(1));
    assert_eq!(stage.bayhand(&["record"]).code, Some(1));
}

#[test]
fn an_open_run_is_listed_with_where_it_stands() {
    let stage = open_run();
    let listed = stage.bayhand(&["runs"]);
    assert!(listed.out.starts_with(&format!("open: {}", stage.run_name())), "{}", listed.out);
    assert!(listed.out.contains("at step 2.1"), "{}", listed.out);
    let rows = json(&stage.bayhand(&["runs", "--json"]));
    assert_eq!(rows[0]["standing"], "open");
    assert_eq!(rows[0]["at"], "2.1");
}

#[test]
fn status_shows_protections_and_each_step() {
    let stage = open_run();
    let shown = stage.bayhand(&["status"]);
    assert_eq!(shown.code, Some(0));
    for words in
        ["In force: vehicle on stands (since", "1.2 done: Open the tap.", "2.1 current: Read", "not started"]
    {
        assert!(shown.out.contains(words), "{words}\n{}", shown.out);
    }
    let data = json(&stage.bayhand(&["status", "--json", &stage.run_name()]));
    assert_eq!(data["protections"][0]["protection"], "vehicle on stands");
    assert_eq!((&data["question"], &data["asks"]), (&"reading".into(), &"pressure".into()));
    assert_eq!(data["steps"].as_array().map(Vec::len), Some(16), "15 to do and one that has parts");
}

/// It verifies like any other, and nothing of it is kept: the next would be another.
#[test]
fn a_record_of_an_open_run_says_first_that_it_is_not_finished() {
    let stage = open_run();
    let text = stage.bayhand(&["record"]);
    assert_eq!((text.code, text.err.as_str()), (Some(0), ""));
    assert!(text.out.starts_with("RECORD, NOT FINISHED\n"), "{}", text.out);
    for words in
        ["Result: not finished: ", "open: step 2.1 is current", "protection in force: vehicle on stands"]
    {
        assert!(text.out.contains(words), "{words}\n{}", text.out);
    }
    let data = stage.bayhand(&["record", "--json"]);
    assert_eq!(bayhand::record::verify(&data.out), Ok(()));
    assert!(!stage.run().join("record.json").exists());
}

#[test]
fn a_closed_run_has_its_record_as_text_and_as_data() {
    let stage = closed_run();
    let text = stage.bayhand(&["record"]);
    assert_eq!((text.code, text.err.as_str()), (Some(0), ""));
    assert!(text.out.contains("Robin Vale") && text.out.contains("SHA-256"), "{}", text.out);
    let data = stage.bayhand(&["record", "--json", &stage.run_name()]);
    let kept = std::fs::read_to_string(stage.run().join("record.json")).expect("the kept record");
    assert_eq!(data.out, kept);
    assert!(json(&data).is_object());
    let again = stage.bayhand(&["run", &stage.run_name()]);
    assert_eq!(again.code, Some(1), "a closed run is not gone on with");
    assert!(stage.bayhand(&["runs"]).out.starts_with("closed: "));
}

/// A record that was changed is left as it is and said; what is printed comes from the journal.
#[test]
fn a_record_that_was_changed_is_said() {
    let stage = closed_run();
    let honest = stage.bayhand(&["record"]).out;
    let path = stage.run().join("record.json");
    let text = std::fs::read_to_string(&path).expect("the kept record");
    let forged = text.replace("Robin Vale", "Robin Dale");
    std::fs::write(&path, &forged).expect("the changed record");
    let ended = stage.bayhand(&["record"]);
    assert!(words_of(&ended.err).contains("is not what the journal of the run gives"), "{}", ended.err);
    assert_eq!((ended.code, ended.out), (Some(1), honest));
    assert_eq!(std::fs::read_to_string(&path).expect("the kept record"), forged);
}

#[test]
fn several_runs_are_told_apart_by_name() {
    let stage = open_run();
    let mut anew = RUN.to_vec();
    anew.push("--new");
    assert_eq!(stage.bayhand_fed(&anew, "Robin Vale\n").code, Some(5));
    assert_eq!(stage.runs().len(), 2);
    let ended = stage.bayhand(&["status"]);
    assert_eq!(ended.code, Some(1));
    assert!(ended.err.contains("name one of: "), "{}", ended.err);
}

/// What is not finished stands on one display: deferred, deviations, protections, and whether
/// it can be left so.
#[test]
fn what_is_not_finished_stands_on_one_display() {
    let stage = Stage::with_small_procedure();
    let answers = "Robin Vale\nSam Hollis\n187400 km\ny\nRV, SH\na\ny\ny\nRV\nSH\no\nv\n1\na jam jar\no\nl\nno light\nsection 2\n";
    assert_eq!(stage.bayhand_fed(&RUN, answers).code, Some(5));
    let shown = words_of(&stage.bayhand(&["status"]).out);
    for words in [
        "step 1.2 is deferred",
        "deviation 1 has no disposition: a jam jar",
        "protection in force: vehicle on stands (released by Robin Vale and Sam Hollis, entry 11)",
        "Safe stopping point: no; the next is after step 2.10,",
        "At: 2.1 Read the pressure",
    ] {
        assert!(shown.contains(words), "{words}\n{shown}");
    }
    let data = json(&stage.bayhand(&["status", "--json"]));
    assert_eq!(data["can_stop"], false);
    assert_eq!(data["protections"][0]["by"], "Robin Vale and Sam Hollis");
    assert_eq!(data["waits"].as_array().map(Vec::len), Some(0));
    assert_eq!(data["step"], "2.1");
}

/// Where no stopping point lies ahead, the end of the job is one.
#[test]
fn without_a_stopping_point_ahead_the_end_of_the_job_is_told() {
    let stage = Stage::with_small_procedure();
    let (begin, table) = ("[stopping_points]", "noted = \"the hose is off, and all is written down\"\n");
    let text = stage.text("bleed.md").replace(&format!("{begin}\n{table}"), "").replace("[noted] ", "");
    assert!(!text.contains("noted") && !text.contains(begin), "{text}");
    stage.file("bleed.md", &text);
    assert_eq!(stage.bayhand_fed(&RUN, "Robin Vale\nSam Hollis\n").code, Some(5));
    let shown = words_of(&stage.bayhand(&["status"]).out);
    assert!(shown.contains("Safe stopping point: yes, nothing is begun yet"), "{shown}");
    let answers = "y\n187400 km\ny\nRV, SH\na\ny\ny\nRV\nSH\n";
    assert_eq!(stage.bayhand_fed(&RUN, answers).code, Some(5));
    let shown = words_of(&stage.bayhand(&["status"]).out);
    assert!(shown.contains("Safe stopping point: no; the end of the job is"), "{shown}");
}

/// The open runs come first, with their state and start; beginning another says which are not finished.
#[test]
fn open_runs_come_first_and_one_left_unfinished_is_said() {
    let stage = closed_run();
    let text = std::fs::read_to_string("tests/cases/session/bleed.md").expect("the small procedure");
    stage.file("bleed.md", &text);
    let first = stage.bayhand_fed(&["run", "bleed.md"], "Robin Vale\n");
    assert!(!first.out.contains("Not finished yet"), "{}", first.out);
    let second = stage.bayhand_fed(&["run", "bleed.md", "--new"], "Robin Vale\n");
    assert!(words_of(&second.out).contains("Not finished yet: "), "{}", second.out);
    let rows = json(&stage.bayhand(&["runs", "--json"]));
    let standing: Vec<&str> =
        rows.as_array().expect("rows").iter().filter_map(|row| row["standing"].as_str()).collect();
    assert_eq!(standing, ["open", "open", "closed"]);
    assert!(rows[0]["began"].as_str().is_some_and(|began| began.len() == 16), "{rows}");
}
