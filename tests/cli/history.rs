//! `history`: every time that a reading was taken on a vehicle, a value worked out, something counted; listed and drawn.

use std::fs;

use serde_json::Value;

use super::two_runs::{Read, USUAL, ran, sheet, stage};
use crate::session::stage::{Ended, Stage, words_of};

/// Three runs on one vehicle and one on another; the last on the first has one side beyond its limit.
fn over_the_years() -> Stage {
    let stage = stage();
    ran(&stage, ("2024-10-12", "151200 km", "one.toml"), &USUAL);
    ran(&stage, ("2025-04-02", "160000 km", "one.toml"), &Read { gaps: ["0.35 mm", "0.25 mm"], ..USUAL });
    ran(&stage, ("2025-05-05", "9000 km", "other.toml"), &Read { gaps: ["0.11 mm", "0.12 mm"], ..USUAL });
    ran(&stage, ("2026-10-12", "171200 km", "one.toml"), &Read { gaps: ["0.45 mm", "0.31 mm"], ..USUAL });
    stage
}

fn history(stage: &Stage, arguments: &[&str]) -> Ended {
    stage.bayhand(&[&["history"], arguments].concat())
}

fn told(stage: &Stage, arguments: &[&str]) -> String {
    let ended = history(stage, arguments);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
    ended.out
}

#[test]
fn all_readings_of_a_name_on_one_vehicle_are_listed_the_oldest_first() {
    let stage = over_the_years();
    let said = words_of(&told(&stage, &["gap", "--vehicle", "EXAMPLE-1"]));
    for words in [
        "the green one (EXAMPLE-1). Taken 6 times in 3 runs; 0 failed.",
        "2024-10-12 18:02:00 +00:00, 151200 km gap: 0.3 mm; pass; at most 0.5 mm; run 2024-10-12-gap, step 1.1, pass 1 of 2 \
         (left); with feeler gauges",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    assert!(!said.contains("0.11 mm"), "another vehicle: {said}");
    let order: Vec<usize> =
        ["151200 km", "160000 km", "171200 km"].iter().map(|it| said.find(it).expect(it)).collect();
    assert!(order.is_sorted(), "{said}");
    // By what it is, too; and the vehicle by part of its name, in whatever case.
    assert_eq!(words_of(&told(&stage, &["Gap", "--vehicle", "GREEN"])), said);
    let data: Value =
        serde_json::from_str(&told(&stage, &["gap", "--vehicle", "EXAMPLE-1", "--json"])).expect("JSON");
    let numbers: Vec<&str> = data["taken"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| one["amount"]["number"].as_str().unwrap())
        .collect();
    assert_eq!(numbers, ["0.3", "0.2", "0.35", "0.25", "0.45", "0.31"]);
    let csv = told(&stage, &["gap", "--vehicle", "EXAMPLE-1", "--csv"]);
    assert_eq!((csv.lines().count(), csv.matches(",0.5,mm,pass,").count()), (7, 6), "{csv}");
}

#[test]
fn which_vehicle_is_meant_is_asked_where_there_are_several() {
    let stage = over_the_years();
    let asked = history(&stage, &["gap"]);
    assert_eq!(asked.code, Some(1));
    let said = words_of(&asked.err);
    assert!(
        said.contains("--vehicle") && said.contains("the green one (EXAMPLE-1); the blue one (EXAMPLE-2)"),
        "{said}"
    );
    let none = words_of(&history(&stage, &["gap", "--vehicle", "red"]).err);
    assert!(none.contains("no run is of a vehicle like `red`"), "{none}");
    let unknown = words_of(&history(&stage, &["gaps", "--vehicle", "green"]).err);
    for words in [
        "nothing of that vehicle is called `gaps`; did you mean `gap`? Readings: gap, level (level below the edge), oil",
        "Computed values: uneven (difference of the sides). Counts: ",
        "side (both sides, passes), sittings, time at work.",
    ] {
        assert!(unknown.contains(words), "{words}\n{unknown}");
    }
    // Of what is nothing like it, all there is; and what it is, is as good as its name.
    let unlike = words_of(&history(&stage, &["temperature", "--vehicle", "green"]).err);
    assert!(unlike.contains("is called `temperature`. Readings: gap,"), "{unlike}");
    let what = words_of(&history(&stage, &["difference of the side", "--vehicle", "green"]).err);
    assert!(what.contains("did you mean `difference of the sides`?"), "{what}");
}

/// 0.30 - 0.20, 0.35 - 0.25 and 0.45 - 0.31 mm, by hand.
#[test]
fn a_computed_value_has_a_history_too() {
    let stage = over_the_years();
    let said = words_of(&told(&stage, &["uneven", "--vehicle", "green"]));
    for words in [
        "difference of the sides [uneven]",
        "Worked out 3 times in 3 runs; 0 failed.",
        "151200 km difference of the sides: 0.1 mm; information only; run 2024-10-12-gap, step 1.2; spread(gap)",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    let data: Value =
        serde_json::from_str(&told(&stage, &["uneven", "--vehicle", "green", "--json"])).expect("JSON");
    let each = data["taken"].as_array().expect("a list");
    let numbers: Vec<&str> = each.iter().map(|one| one["amount"]["number"].as_str().unwrap()).collect();
    assert_eq!(numbers, ["0.1", "0.1", "0.14"]);
    assert!(each.iter().all(|one| one["kind"] == "computed value"), "{data}");
    // The entry is that of its step, and so is the time.
    let record: Value =
        serde_json::from_str(&stage.bayhand(&["record", "2024-10-12-gap", "--json"]).out).expect("JSON");
    let step = record["steps"].as_array().unwrap().iter().find(|step| step["number"] == "1.2").unwrap();
    let done = &step["changes"][0]["when"];
    assert_eq!((&each[0]["entry"], &each[0]["at"]), (&done["entry"], &done["at"]));
    let svg = told(&stage, &["uneven", "--vehicle", "green", "--svg"]);
    assert!(
        svg.contains("<desc id=\"desc\">2024-10-12 0.1 mm, then 2025-04-02 0.1 mm, then 2026-10-12 0.14 mm"),
        "{svg}"
    );
    let csv = told(&stage, &["uneven", "--vehicle", "green", "--csv"]);
    assert_eq!((csv.lines().count(), csv.matches("\r\nuneven,computed value,").count()), (4, 3), "{csv}");
}

/// Two sides in each run, one sitting, nothing that failed: as the procedure and the answers have it.
#[test]
fn what_is_counted_has_a_history_too() {
    let stage = over_the_years();
    for (name, title, answer) in [
        ("side", "both sides, passes [side]", "both sides, passes: 2; complete; run"),
        ("sittings", "HISTORY sittings", "sittings: 1; run"),
        ("readings that failed", "HISTORY readings that failed", "readings that failed: 0; run"),
    ] {
        let said = words_of(&told(&stage, &[name, "--vehicle", "green"]));
        let words = [title, "Counted 3 times in 3 runs; 0 failed.", answer];
        assert!(words.iter().all(|words| said.contains(words)), "{name}: {said}");
        let svg = told(&stage, &[name, "--vehicle", "green", "--svg"]);
        assert!(svg.contains("2024-10-12"), "{svg}");
    }
    let chips = words_of(&told(&play(), &["chips"]));
    assert!(chips.contains("chips in the tray: 3;") && chips.contains("Taken 3 times in 3 runs"), "{chips}");
}

/// 3/9 is 1/3 exactly, and no decimal: a spreadsheet gets the nearest double, a program the fraction.
#[test]
fn a_number_for_a_spreadsheet_is_no_fraction() {
    let stage = play();
    let csv = told(&stage, &["third", "--csv"]);
    let row: Vec<&str> = csv.lines().nth(1).expect("a row").split(',').collect();
    let head: Vec<&str> = csv.lines().next().expect("a head").split(',').collect();
    let cell = |name: &str| row[head.iter().position(|it| *it == name).expect("a column")];
    assert_eq!((cell("number"), cell("number_in_unit")), ("1/3", "0.3333333333333333"), "{csv}");
}

#[test]
fn a_run_that_cannot_be_read_is_said() {
    let stage = over_the_years();
    let journal = stage.data().join("runs/2025-04-02-gap/journal.jsonl");
    let text = fs::read_to_string(&journal).expect("a journal");
    // The same length: the index takes it for the run that it knows.
    fs::write(&journal, text.replace("0.35 mm", "0.15 mm")).expect("an edit");
    let said = words_of(&told(&stage, &["gap", "--vehicle", "green"]));
    assert!(said.contains("RUN 2025-04-02-gap CANNOT BE READ, and may hold more"), "{said}");
    assert!(said.contains("Taken 4 times in 2 runs") && !said.contains("0.15 mm"), "{said}");
}

/// The axis begins with the first and ends with the last, limits are lines, a failure has another letter.
#[test]
fn it_is_drawn_in_letters_that_fit_the_screen() {
    let stage = over_the_years();
    let command = |arguments: &[&str]| {
        let output = stage.command(arguments).env("COLUMNS", "40").output().expect("it ends");
        String::from_utf8(output.stdout).expect("UTF-8")
    };
    let drawn = command(&["history", "gap", "--vehicle", "green"]);
    assert!(drawn.lines().all(|line| line.chars().count() <= 40), "{drawn}");
    let rows: Vec<&str> = drawn.lines().filter(|line| line.contains(" |")).collect();
    assert_eq!(rows.len(), 9, "{drawn}");
    assert!(rows[0].starts_with("  0.5 mm |-----"), "the limit on top: {drawn}");
    assert!(rows[8].starts_with("  0.2 mm |o"), "the lowest at the bottom, and first: {drawn}");
    assert!(rows.iter().all(|row| !row.contains('x')), "{drawn}");
    let days = drawn.lines().find(|line| line.starts_with("          2024-10-12")).expect("the days");
    assert!(days.ends_with("2026-10-12"), "{drawn}");
    assert!(!drawn.contains('\u{1b}') && drawn.contains("o passes"), "{drawn}");
    // Without drawings for a screen reader: the table says it all.
    let plain = command(&["--plain", "history", "gap", "--vehicle", "green"]);
    assert!(!plain.contains(" |") && plain.contains("171200 km"), "{plain}");
}

const SMALL: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a tester\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
tools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n\
[roles]\nlead = \"works\"\n[readings.found]\nwhat = \"play as found\"\nunit = \"mm\"\nmax = \"2 mm\"\nas_found = true\n\
[readings.left]\nwhat = \"play as left\"\nunit = \"mm\"\nmax = \"2 mm\"\nas_left = \"found\"\nfails = \"Set it.\"\n\
[readings.chips]\nwhat = \"chips in the tray\"\nkind = \"count\"\ninformation_only = true\n\
[values.third]\nwhat = \"a third\"\nformula = \"chips / 9\"\nunit = \"1\"\ninformation_only = true\n+++\n\
# Play\n\n1. Read it: [found].\n2. Set it: [left].\n3. Count them: [chips].\n4. Say how many: [third].\n";

/// Play as found on three days, the second time beyond its limit.
fn play() -> Stage {
    let stage = stage();
    stage.file("play.md", SMALL);
    for (day, found) in [("2026-01-10", "1.5 mm"), ("2026-02-10", "3.5 mm"), ("2026-03-12", "1/16 in")] {
        stage.file(
            "a.toml",
            &format!(
                "format = 1\nclock = \"{day}T18:00:00+00:00\"\nanswers = [\n{{ at = \"lead\", enter = \"Robin Vale\" }},\n\
{{ at = \"scope\", do = \"true\" }},\n{{ at = \"found\", enter = \"{found}\" }},\n{{ at = \"left\", enter = \"1 mm\" }},\n{{ at = \"chips\", enter = \"3\" }},\n{{ at = \"1.4\", do = \"done\" }},\n\
{{ at = \"close\", do = \"close\" }},\n]\n"
            ),
        );
        let ended = stage.bayhand(&["run", "play.md", "--vehicle", "one.toml", "--answers", "a.toml"]);
        assert_eq!(ended.code, Some(0), "{}\n{}", ended.out, ended.err);
    }
    stage
}

#[test]
fn a_failure_has_another_shape_and_what_was_found_is_told_from_what_was_left() {
    let stage = play();
    let text = told(&stage, &["found"]);
    let said = words_of(&text);
    assert!(said.contains("play as found, as found: 3.5 mm; fail") && said.contains("1 failed"), "{said}");
    assert!(words_of(&told(&stage, &["left"])).contains("play as left, as left: 1 mm"));
    let rows: Vec<&str> = text.lines().filter(|line| line.contains(" |")).collect();
    assert!(rows[0].contains('x') && rows[1..].iter().all(|row| !row.contains('x')), "{text}");
    assert!(text.contains("x fails"), "{text}");
    let svg = told(&stage, &["found", "--svg"]);
    // A disc for each of the two that pass, and one for the legend; the failure is a cross.
    assert_eq!(svg.matches("<circle").count(), 3, "{svg}");
    assert!(svg.contains("<title id=\"title\">play as found [found]</title>"), "{svg}");
    assert!(svg.contains("<desc id=\"desc\">2026-01-10 1.5 mm, then 2026-02-10 3.5 mm (fails), then 2026-03-12 1.5875 mm</desc>"), "{svg}");
    assert!(svg.contains("stroke-dasharray") && svg.contains("upper limit 2 mm"), "{svg}");
    let html = told(&stage, &["found", "--html"]);
    assert!(
        html.contains("aria-label=\"2026-01-10 1.5 mm, then") && html.contains("upper limit 2 mm"),
        "{html}"
    );
}

/// 1/16 in is 1.5875 mm exactly; in inches 3.5 mm is 0.1378 in (3.5/25.4).
#[test]
fn numbers_stand_in_the_unit_that_is_preferred() {
    let stage = play();
    stage.file("data/units.txt", "in\n");
    let said = words_of(&told(&stage, &["found"]));
    assert!(said.contains("3.5 mm = 0.1378 in; fail"), "{said}");
}

#[test]
fn hostile_words_stay_words() {
    let stage = stage();
    stage.file("one.toml", &sheet("<script>alert(1)</script>\u{202e}", "</desc><script>"));
    ran(&stage, ("2026-10-12", "1 km", "one.toml"), &USUAL);
    for form in
        [&["gap"][..], &["gap", "--html"], &["gap", "--markdown"], &["gap", "--svg"], &["gap", "--csv"]]
    {
        let text = told(&stage, form);
        let is_markup = form.iter().any(|it| ["--html", "--svg"].contains(it));
        assert!(!text.contains('\u{202e}'), "{form:?}: {text}");
        assert!(!is_markup || !text.contains("<script"), "{form:?}: {text}");
    }
}
