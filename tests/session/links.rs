//! A job that runs other procedures, three deep: walked, left in the middle, its files changed and damaged.

use std::fs;
use std::path::Path;

use bayhand::record::{Finding, verify};
use serde_json::Value;

use super::seat::{Seat, Speech};
use super::stage::{Ended, Stage, words_of};

const FILES: [&str; 6] =
    ["job.md", "lines/flush.md", "lines/bleed.md", "work the tap.md", "vehicle.toml", "answers.toml"];
const AT_THE_TAP: &str = "    { at = \"flush/bleed/work the tap/flow\"";

fn stage() -> Stage {
    let stage = Stage::bare();
    fs::create_dir(stage.path("lines")).expect("a folder");
    for name in FILES {
        let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/session/linked").join(name);
        stage.file(name, &fs::read_to_string(from).expect("a file of the tests"));
    }
    stage
}

fn run(stage: &Stage, answers: &str) -> Ended {
    stage.bayhand(&["run", "job.md", "--vehicle", "vehicle.toml", "--answers", answers])
}

/// The run up to the reading in the innermost procedure.
fn stops_at_the_tap(stage: &Stage) {
    let text = stage.text("answers.toml");
    let end = text.find(AT_THE_TAP).expect("the answer");
    stage.file("first.toml", &format!("{}]\n", &text[..end]));
    let ended = run(stage, "first.toml");
    assert!(
        ended.err.contains("`flush/bleed/work the tap/flow` is asked next"),
        "{}\n{}",
        ended.out,
        ended.err
    );
}

/// The run from that reading on; what is begun anew with a sitting comes first.
fn goes_on(stage: &Stage) -> Ended {
    let text = stage.text("answers.toml");
    let (head, _) = text.split_once("    {").expect("answers");
    let rest = &text[text.find(AT_THE_TAP).expect("the answer")..];
    let before = "    { at = \"state\", enter = \"tap open\" },\n    { at = \"brief\", do = \"read\" },\n    { at = \"flush/hot\", do = \"acknowledge\" },\n";
    stage.file("rest.toml", &format!("{head}{before}{rest}"));
    run(stage, "rest.toml")
}

fn record(stage: &Stage) -> Value {
    serde_json::from_str(&fs::read_to_string(stage.run().join("record.json")).expect("a record"))
        .expect("JSON")
}

#[test]
fn readings_of_all_depths_are_in_one_record() {
    let stage = stage();
    let ended = run(&stage, "answers.toml");
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
    let record = record(&stage);
    let readings: Vec<(&str, &str, Option<&str>)> = record["readings"]
        .as_array()
        .expect("readings")
        .iter()
        .map(|reading| {
            let text = |key: &str| reading[key].as_str();
            (text("name").expect("a name"), text("step").expect("a step"), text("from"))
        })
        .collect();
    assert_eq!(
        readings,
        [
            ("flush/bleed/work the tap/flow", "2.2.2.1.2.2", Some("work the tap.md")),
            ("flush/bleed/turns", "2.2.2.1.3", Some("lines/bleed.md")),
            ("flush/flow", "2.2.2.2", Some("lines/flush.md")),
            ("flow", "2.3", None),
        ]
    );
    let linked = record["procedure"]["linked"].as_array().expect("the linked procedures");
    let texts: Vec<&str> = linked.iter().filter_map(|linked| linked["text"].as_str()).collect();
    assert_eq!(texts, ["lines/flush.md", "lines/bleed.md", "work the tap.md"].map(|name| stage.text(name)));
    let steps = record["steps"].as_array().expect("steps");
    let from = |number: &str| {
        let step = steps.iter().find(|step| step["number"] == number).expect("the step");
        step["from"].as_str().map(str::to_owned)
    };
    assert_eq!(from("2.2"), None);
    assert_eq!(from("2.2.2.1.2").as_deref(), Some("lines/bleed.md"));
    assert_eq!(from("2.2.2.1.2.1").as_deref(), Some("work the tap.md"));
    assert!(
        words_of(&ended.out).contains("2.2.2.1.2.2 flow at the tap [flush/bleed/work the tap/flow]"),
        "{}",
        ended.out
    );
    assert!(
        words_of(&ended.out).contains("Runs within it: Flush the cooler lines (lines/flush.md), revision B"),
        "{}",
        ended.out
    );
}

#[test]
fn the_record_is_verified_from_the_linked_texts_that_it_carries() {
    let stage = stage();
    run(&stage, "answers.toml");
    let json = fs::read_to_string(stage.run().join("record.json")).expect("a record");
    assert_eq!(verify(&json), Ok(()));
    let changed = json.replace("Tighten the screw and count", "Tighten the screw, count");
    let findings = verify(&changed).expect_err("it was changed");
    assert!(
        findings.contains(&Finding::Hash { text: "procedure `lines/bleed.md`".to_owned() }),
        "{findings:?}"
    );
    assert!(findings.contains(&Finding::NotPinned { file: "linked-2.md".to_owned() }), "{findings:?}");
}

#[test]
fn both_protections_of_one_name_stand_side_by_side() {
    let stage = stage();
    stops_at_the_tap(&stage);
    let status = stage.bayhand(&["status"]);
    let words = words_of(&status.out);
    assert!(words.contains("vehicle on stands") && words.contains("tray under the lines"), "{}", status.out);
}

#[test]
fn status_prints_the_return_stack() {
    let stage = stage();
    stops_at_the_tap(&stage);
    let status = stage.bayhand(&["status"]);
    let stack: Vec<&str> = status.out.lines().filter(|line| line.starts_with("Return: ")).collect();
    assert_eq!(
        stack,
        [
            "Return: 2.2 in \"Flush the cooler lines\", then back to 2.3",
            "Return: 2.2.2.1 in \"Bleed the line\", then back to 2.2.2.2",
            "Return: 2.2.2.1.2 in \"Work the tap\", then back to 2.2.2.1.3",
        ],
        "{}",
        status.out
    );
    let data: Value = serde_json::from_str(&stage.bayhand(&["status", "--json"]).out).expect("JSON");
    let within: Vec<_> =
        data["within"].as_array().expect("a stack").iter().map(|within| &within["back_to"][0]).collect();
    assert_eq!(within, ["2.3", "2.2.2.2", "2.2.2.1.3"]);
    assert!(words_of(&stage.bayhand(&["runs"]).out).contains("at step 2.2.2.1.2.2"));
}

#[test]
fn a_run_left_in_a_linked_procedure_goes_on_there_with_the_texts_it_began_with() {
    let stage = stage();
    stops_at_the_tap(&stage);
    let old = stage.text("lines/bleed.md");
    stage.file("lines/bleed.md", &old.replace("Tighten the screw", "Break the screw"));
    fs::remove_file(stage.path("work the tap.md")).expect("it was there");
    let ended = goes_on(&stage);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
    let words = words_of(&ended.out);
    assert!(
        words.contains("`lines/bleed.md` and `work the tap.md`: this run keeps to the texts it began with"),
        "{}",
        ended.out
    );
    assert_eq!(record(&stage)["procedure"]["linked"][1]["text"], old.as_str());
}

#[test]
fn killed_in_the_innermost_procedure_it_goes_on_there() {
    let stage = stage();
    let (job, sheet) = (stage.path("job.md"), stage.path("vehicle.toml"));
    let arguments = ["run", &job.to_string_lossy(), "--vehicle", &sheet.to_string_lossy()];
    let mut seat = Seat::take(&stage, Speech::Colour, 80, &arguments);
    seat.line("Name of the lead", "Robin Vale");
    seat.line("Name of the helper", "Sam Hollis");
    seat.line("Odometer", "187400 km");
    seat.key("Is it for this vehicle?", "y");
    seat.line("Present, by name or initials", "RV, SH");
    seat.key("each pin is locked", "y");
    seat.line("Released by Robin Vale", "RV");
    seat.key("2.1 Open the hood.", "d");
    seat.key("in \"Flush the cooler lines\", then back to 2.3", "y");
    seat.line("Released by Sam Hollis", "SH");
    seat.key("Read and understood?", "a");
    seat.key("in \"Bleed the line\", then back to 2.2.2.2", "d");
    seat.key("in \"Work the tap\", then back to 2.2.2.1.3", "d");
    seat.reads("2.2.2.1.2.2 Read the flow: [flow at the tap].");
    seat.reads("in L/min:");
    seat.pty.kill();
    let kept = stage.journal_lines();
    let mut seat = Seat::take(&stage, Speech::Colour, 80, &arguments);
    seat.line("How do things stand (loose, hanging, open, live)?", "tap open");
    seat.key("Resume brief", "y");
    seat.key("Read and understood?", "a");
    seat.line("in \"Work the tap\", then back to 2.2.2.1.3", "3");
    seat.line("turns of the screw", "4");
    seat.line("in \"Flush the cooler lines\", then back to 2.3", "1.5");
    seat.key("1 of 1: dry", "y");
    seat.line("Released by Sam Hollis", "SH");
    seat.line("2.3 Read the flow: [flow through the cooler].", "2.5");
    seat.key("people clear", "y");
    seat.line("Released by Robin Vale", "RV");
    seat.key("[e] end: close and seal the run", "e");
    assert_eq!(seat.leaves(), 0);
    assert_eq!(stage.journal_lines()[..kept.len()], kept);
    assert_eq!(record(&stage)["readings"].as_array().map(Vec::len), Some(4));
}

#[test]
fn a_suspended_run_still_tells_its_return_stack() {
    let stage = stage();
    let text = stage.text("answers.toml");
    let end = text.find(AT_THE_TAP).expect("the answer");
    let suspend = "    { at = \"flush/bleed/work the tap/flow\", do = \"suspend\", reason = \"supper\", state = \"tap open\" },\n\
    { at = \"support\", do = \"keep\" },\n{ at = \"flush/support\", do = \"keep\" },\n";
    stage.file("first.toml", &format!("{}{suspend}]\n", &text[..end]));
    assert_eq!(run(&stage, "first.toml").code, Some(0));
    let status = stage.bayhand(&["status"]).out;
    assert!(status.contains("Suspended"), "{status}");
    assert_eq!(status.lines().filter(|line| line.starts_with("Return: ")).count(), 3, "{status}");
}

#[test]
fn a_pinned_linked_text_that_was_changed_or_lost_is_named() {
    for change in [Some("# Another\n"), None] {
        let stage = stage();
        stops_at_the_tap(&stage);
        let path = stage.run().join("linked-3.md");
        match change {
            Some(text) => fs::write(&path, text).expect("a file"),
            None => fs::remove_file(&path).expect("it was there"),
        }
        let ended = stage.bayhand(&["status"]);
        assert_eq!(ended.code, Some(3), "{}", ended.err);
        assert!(
            words_of(&ended.err).contains("`linked-3.md` in the folder of this run is not what"),
            "{}",
            ended.err
        );
    }
}

#[test]
fn a_run_without_links_is_kept_as_it_always_was() {
    let stage = stage();
    stage.file("one.toml", "format = 1\nclock = \"2026-11-21T18:30:00+01:00\"\nanswers = []\n");
    let path = stage.path("work the tap.md");
    stage.bayhand(&["run", &path.display().to_string(), "--answers", "one.toml"]);
    let started = &stage.events()[0]["started"];
    assert!(started["procedure"]["sha256"].is_string() && started.get("linked").is_none(), "{started}");
}

#[test]
fn check_tells_of_the_linked_files_too_each_once() {
    let stage = stage();
    let ended = stage.bayhand(&["check", "job.md", "lines/flush.md", "vehicle.toml"]);
    // What is named is told of in its place; what is only linked to, with what links to it.
    let all = ["job.md", "lines/bleed.md", "work the tap.md", "lines/flush.md", "vehicle.toml"];
    let lines = all.map(|name| format!("{name}: nothing to report\n")).concat();
    assert_eq!((ended.code, ended.out), (Some(0), lines));
    stage.file("work the tap.md", "# No front matter\n");
    let ended = stage.bayhand(&["check", "job.md"]);
    assert_eq!(ended.code, Some(1));
    for said in [
        "--> job.md:",
        "`work the tap.md` has 1 error",
        "--> work the tap.md:1:1",
        "error[front-matter-missing]",
    ] {
        assert!(ended.out.contains(said), "{said}\n{}", ended.out);
    }
    fs::remove_file(stage.path("work the tap.md")).expect("it was there");
    for command in [["check", "job.md"], ["show", "job.md"], ["run", "job.md"]] {
        let ended = stage.bayhand(&command);
        assert_eq!(ended.code, Some(1), "{command:?}");
        let said = ended.out + &ended.err;
        assert!(said.contains("error[link-missing]") && said.contains("--> lines/bleed.md:"), "{said}");
    }
}

#[test]
fn show_prints_the_whole_job() {
    let shown = stage().bayhand(&["show", "job.md"]).out;
    let words = words_of(&shown);
    for said in [
        "Flush the cooler lines, revision B (lines/flush.md)",
        "2.2.2 Flush",
        "2.2.2.1.2.1 [helper] Open the tap.",
        "What is in the lines comes out.",
        "turns of the screw",
    ] {
        assert!(words.contains(said), "{said}\n{shown}");
    }
}
