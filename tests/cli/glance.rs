//! All runs at a glance: the index of closed runs holds nothing of its own, and `records` finds in it.

use std::fs;

use crate::session::stage::{Stage, words_of};

const ANSWERS: &str = "format = 1\nclock = \"2026-10-12T18:00:00+00:00\"\nanswers = [\n{ at = \"lead\", enter = \"Robin Vale\" },\n\
{ at = \"scope\", do = \"true\" },\n{ at = \"gap\", enter = \"4 mm\" },\n{ at = \"close\", do = \"close\" },\n]\n";
const HEAD: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a tester\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
required = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\nmaterials = \"none\"\n[parts]\nseal = \"seal of the tail\"\n[tools]\nfeelers = \"feeler gauges\"\n\
[roles]\nlead = \"works\"\n[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\ninformation_only = true\ninstrument = \"feelers\"\n+++\n";
const SHEET: &str =
    "format = 1\nvehicle = \"the green one\"\nidentification = \"EXAMPLE-1\"\nodometer_unit = \"km\"\n";

fn stage() -> Stage {
    let stage = Stage::bare();
    stage.file(
        "gap.md",
        &format!("{HEAD}# Gap at the tail\n\n1. Fit the [seal], read with the [feelers]: [gap].\n"),
    );
    stage.file("sheet.toml", SHEET);
    stage
}

fn closed(stage: &Stage, day: u8, sheet: bool) {
    stage.file("a.toml", &ANSWERS.replace("10-12", &format!("10-{day:02}")));
    let with_sheet = ["--vehicle", "sheet.toml"];
    let arguments =
        [&["run", "gap.md", "--answers", "a.toml"][..], if sheet { &with_sheet } else { &[] }].concat();
    let ran = stage.bayhand(&arguments);
    assert_eq!(ran.code, Some(0), "{}", ran.err);
}

fn index(stage: &Stage) -> std::path::PathBuf {
    stage.data().join("runs/closed-runs.txt")
}

#[test]
fn the_index_can_always_be_made_anew() {
    let stage = stage();
    closed(&stage, 12, true);
    closed(&stage, 13, false);
    let listed = || words_of(&stage.bayhand(&["records"]).out);
    let first = listed();
    assert!(first.contains("2026-10-12-gap") && first.contains("2026-10-13-gap"), "{first}");
    let kept = fs::read_to_string(index(&stage)).unwrap();
    for broken in [None, Some(""), Some("{"), Some("closed runs, format 9\n"), Some("\u{0}")] {
        match broken {
            None => fs::remove_file(index(&stage)).unwrap(),
            Some(text) => fs::write(index(&stage), text).unwrap(),
        }
        assert_eq!(listed(), first);
        assert_eq!(fs::read_to_string(index(&stage)).unwrap(), kept);
    }
    // What is not there any more is not listed, and a run that was begun under its name is open.
    fs::remove_dir_all(stage.data().join("runs/2026-10-13-gap")).unwrap();
    assert!(!listed().contains("2026-10-13-gap"));
    assert!(!fs::read_to_string(index(&stage)).unwrap().contains("2026-10-13"));
}

#[test]
fn an_entry_of_another_journal_does_not_count() {
    let stage = stage();
    closed(&stage, 12, true);
    stage.bayhand(&["records"]);
    let journal = stage.data().join("runs/2026-10-12-gap/journal.jsonl");
    let text = fs::read_to_string(&journal).unwrap();
    let open: String = text.split_inclusive('\n').take(4).collect();
    fs::write(&journal, open).unwrap();
    for record in ["record.json", "record.txt"] {
        fs::remove_file(stage.data().join("runs/2026-10-12-gap").join(record)).unwrap();
    }
    assert!(
        !words_of(&stage.bayhand(&["records"]).out).contains("2026-10-12-gap"),
        "it is not closed any more"
    );
    let begun = stage.bayhand_fed(&["--plain", "run", "gap.md"], "");
    assert!(words_of(&begun.out).contains("Run 2026-10-12-gap goes on"), "{}", begun.out);
}

#[test]
fn records_are_found_by_what_they_are_about() {
    let stage = stage();
    closed(&stage, 12, true);
    closed(&stage, 20, false);
    let found = |filters: &[&str]| {
        let ended = stage.bayhand(&[&["records"], filters].concat());
        assert_eq!(ended.code, Some(0), "{}", ended.err);
        let said = words_of(&ended.out);
        (said.contains("2026-10-12-gap"), said.contains("2026-10-20-gap"))
    };
    for (filters, wanted) in [
        (&[][..], (true, true)),
        (&["--vehicle", "green"], (true, false)),
        (&["--vehicle", "EXAMPLE-1"], (true, false)),
        (&["--since", "2026-10-15"], (false, true)),
        (&["--until", "2026-10-15"], (true, false)),
        (&["--procedure", "gap"], (true, true)),
        (&["--procedure", "tail"], (true, true)),
        (&["--part", "seal"], (true, true)),
        (&["--instrument", "feeler"], (true, true)),
        (&["--instrument", "tape"], (false, false)),
        (&["--deviation", "gap"], (false, false)),
        (&["--person", "vale"], (true, true)),
    ] {
        assert_eq!(found(filters), wanted, "{filters:?}");
    }
    let wrong = stage.bayhand(&["records", "--since", "last week"]);
    assert_eq!(wrong.code, Some(2), "{}", wrong.err);
}

#[test]
fn the_export_is_what_the_listing_says() {
    let stage = stage();
    closed(&stage, 12, true);
    let json = stage.bayhand(&["records", "--json"]).out;
    let rows: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(rows[0]["run"], "2026-10-12-gap");
    assert_eq!(rows[0]["identification"], "EXAMPLE-1");
    assert_eq!(rows[0]["result"], "completed without deviation");
    let csv = stage.bayhand(&["records", "--csv"]).out;
    let mut lines = csv.split("\r\n");
    let head: Vec<&str> = lines.next().unwrap().split(',').collect();
    assert_eq!(&head[..4], ["run", "procedure", "title", "revision"]);
    let row = lines.next().unwrap();
    assert!(row.starts_with("2026-10-12-gap,gap,Gap at the tail,A,the green one,EXAMPLE-1,"), "{row}");
    assert_eq!(lines.next(), Some(""), "each row ends with CR LF");
}

/// The readings of all runs that fit in one table; duckdb and pandas read it in `tests/reference/exports.py`.
#[test]
fn the_readings_of_several_runs_are_one_table() {
    let stage = stage();
    closed(&stage, 12, true);
    closed(&stage, 20, false);
    let table = |filters: &[&str]| {
        let ended = stage.bayhand(&[&["records", "--csv", "--readings"], filters].concat());
        assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
        ended.out
    };
    let of_run = |run: &str| stage.bayhand(&["record", run, "--csv"]).out;
    let (first, second) = (of_run("2026-10-12-gap"), of_run("2026-10-20-gap"));
    let (head, rows) = first.split_once("\r\n").expect("a head");
    let (_, newer) = second.split_once("\r\n").expect("a head");
    assert_eq!(table(&[]), format!("{head}\r\n{newer}{rows}"), "the newest run first, one head");
    assert_eq!(table(&["--until", "2026-10-15"]), first);
    assert_eq!(stage.bayhand(&["records", "--readings"]).code, Some(2), "only as a table");
}

/// A folder that cannot be written to is listed all the same.
#[cfg(unix)]
#[test]
fn a_read_only_folder_is_listed() {
    use std::os::unix::fs::PermissionsExt;
    let stage = stage();
    closed(&stage, 12, true);
    let runs = stage.data().join("runs");
    fs::set_permissions(&runs, fs::Permissions::from_mode(0o555)).unwrap();
    let listed = stage.bayhand(&["records"]);
    fs::set_permissions(&runs, fs::Permissions::from_mode(0o755)).unwrap();
    assert!(words_of(&listed.out).contains("2026-10-12-gap"), "{}{}", listed.out, listed.err);
}
