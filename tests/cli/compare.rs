//! `compare`: two records of one procedure side by side, held against the instruments.

use std::fs;

use bayhand::print;
use bayhand::record::compare::{self, Comparison, Count};
use bayhand::record::model::Record;
use serde_json::Value;

use super::two_runs::{Read, USUAL, ran, sheet, stage};
use crate::session::stage::{Stage, words_of};

const LATER: Read =
    Read { gaps: ["0.42 mm", "0.25 mm"], level: "14 mm", oil: "dark", bolts: ["48 N·m", "51 N·m"] };
const BOTH: [&str; 2] = ["2026-10-12-gap", "2026-11-12-gap"];

fn before_and_after() -> Stage {
    let stage = stage();
    ran(&stage, ("2026-10-12", "151200 km", "one.toml"), &USUAL);
    ran(&stage, ("2026-11-12", "152900 km", "one.toml"), &LATER);
    stage
}

fn compared(stage: &Stage, arguments: &[&str]) -> String {
    let ended = stage.bayhand(&[&["compare", BOTH[0], BOTH[1]], arguments].concat());
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
    ended.out
}

fn change<'c>(compared: &'c Value, sort: &str, name: &str, of: Option<&str>) -> &'c Value {
    let all = compared[sort].as_array().expect("a list");
    let is_meant = |one: &&Value| one["name"] == name && of.is_none_or(|of| one["of"] == of);
    all.iter().find(is_meant).unwrap_or_else(|| panic!("{name} {of:?} in {compared}"))
}

/// `E_n` by hand, and again with Python 3.11: 0.12/sqrt(2·(2·0.05/sqrt 3)²) = 1.4697; 0.05 likewise 0.6124;
/// 2/sqrt((2·2/sqrt 3)² + (2·1.92/sqrt 3)²) = 0.6247.
#[test]
fn a_change_is_held_against_the_accuracies_that_are_stated() {
    let stage = before_and_after();
    let data: Value = serde_json::from_str(&compared(&stage, &["--json"])).expect("JSON");
    for (sort, name, of, word, en, by) in [
        ("readings", "gap", Some("left"), "more_than_the_instruments", "1.47", "+0.12 mm"),
        ("readings", "gap", Some("right"), "maybe_the_instruments", "0.61", "+0.05 mm"),
        ("fasteners", "flange", Some("1"), "maybe_the_instruments", "0.62", "-2 N·m"),
    ] {
        let change = change(&data, sort, name, of);
        assert_eq!(
            (&change["meaning"]["word"], &change["meaning"]["en"]),
            (&word.into(), &en.into()),
            "{change}"
        );
        assert_eq!(change["change"]["shown"], by, "{change}");
    }
    let level = change(&data, "readings", "level", None);
    assert_eq!(
        (&level["meaning"]["word"], &level["change"]["shown"]),
        (&"no_accuracy_stated".into(), &"+2 mm".into())
    );
    let oil = change(&data, "readings", "oil", None);
    assert_eq!((&oil["before"]["shown"], &oil["after"]["shown"]), (&"clear".into(), &"dark".into()));
    let uneven = change(&data, "values", "uneven", None);
    assert_eq!(
        (&uneven["change"]["shown"], &uneven["meaning"]["word"]),
        (&"+0.07 mm".into(), &"none".into())
    );
    assert_eq!(change(&data, "fasteners", "flange", Some("2"))["is_same"], true);
}

#[test]
fn it_says_what_changed_and_sums_up_what_did_not() {
    let stage = before_and_after();
    let said = words_of(&compared(&stage, &[]));
    for words in [
        "1.1 gap (left) [gap]: before 0.3 mm (pass); after 0.42 mm (pass); change +0.12 mm; more than the instruments can \
         explain (E_n 1.47); pass 1 of 2 (left); both with feeler gauges ±0.05 mm",
        "change +2 mm; no accuracy stated",
        "look of the oil [oil]: before clear; after dark",
        "flange bolts, full (1) [flange]: before 50 N·m (pass); after 48 N·m (pass); change -2 N·m; may be the instruments \
         alone (E_n 0.62); both with torque wrench TW-1 ±4 %",
        "difference of the sides [uneven]: before 0.1 mm; after 0.17 mm; change +0.07 mm",
        "1 reading changed by more than the instruments can explain. 2 readings changed by no more",
        "The same before and after: 1 fastener.",
        "ISO 13528",
        "one and the same instrument, most of its error is in both",
        "the green one (EXAMPLE-1), 152900 km",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    assert!(!said.contains("flange bolts, full (2)") && !said.contains("NOT THE SAME"), "{said}");
}

/// A column in which nothing stands has no head, and what the heading says is only read aloud above its table.
#[test]
fn its_page_has_no_empty_head_and_no_words_twice() {
    let count = Count { what: "sittings".to_owned(), before: "1".to_owned(), after: "2".to_owned() };
    let stage = before_and_after();
    let record = |run: &str| {
        let json = stage.bayhand(&["record", run, "--json"]).out;
        serde_json::from_str::<Record>(&json).expect("a record")
    };
    let both = compare::compared(&record(BOTH[0]), &record(BOTH[1])).expect("one procedure");
    let html = print::html(&compare::compared_page(&Comparison { counts: vec![count], ..both }));
    assert!(html.contains("<caption class=\"heard\">Counts and times</caption>"), "{html}");
    assert!(html.contains("<th scope=\"row\">sittings</th><td data-column=\"Before\">1</td>"), "{html}");
    assert!(!html.contains("<th scope=\"col\"></th>") && !html.contains("<th scope=\"row\"></th>"), "{html}");
    assert!(!html.contains("<caption>Readings that changed"), "{html}");
}

#[test]
fn every_form_tells_the_same_changes() {
    let stage = before_and_after();
    let html = compared(&stage, &["--html"]);
    let markdown = compared(&stage, &["--markdown"]).replace('\\', "");
    let text = words_of(&compared(&stage, &[]));
    for words in ["more than the instruments can explain (E_n 1.47)", "no accuracy stated", "-2 N·m"] {
        assert!(html.contains(words) && markdown.contains(words) && text.contains(words), "{words}");
    }
    // What the head of a column says is not said again below it; in a text there is no head.
    assert!(text.contains("change -2 N·m") && !html.contains("change -2 N·m"), "{html}");
    let csv = compared(&stage, &["--csv"]);
    let rows: Vec<Vec<&str>> = csv.lines().map(|line| line.split(',').collect()).collect();
    // Two gaps, level, oil; one value; two bolts; below the head.
    assert_eq!(rows.len(), 8, "{csv}");
    let head = &rows[0];
    let column = |row: &Vec<&str>, name: &str| {
        row[head.iter().position(|it| *it == name).expect("a column")].to_owned()
    };
    let left = rows.iter().find(|row| row[1] == "gap" && row[3] == "left").expect("the row");
    assert_eq!(
        ["before_number", "after_number", "change", "en"].map(|name| column(left, name)),
        ["0.3", "0.42", "0.12", "1.47"]
    );
    stage.bayhand(&["compare", BOTH[0], BOTH[1], "--html", "--to", "two.html"]);
    assert_eq!(stage.text("two.html"), html);
    assert_eq!(
        stage.bayhand(&["compare", BOTH[0], BOTH[1], "--to", "two.html"]).code,
        Some(3),
        "not overwritten"
    );
}

#[test]
fn a_record_from_anywhere_is_as_good_as_a_run() {
    let stage = before_and_after();
    let kept = stage.data().join("runs").join(BOTH[0]).join("record.json");
    fs::copy(&kept, stage.path("old.json")).expect("a copy");
    let by_file = stage.bayhand(&["compare", "old.json", BOTH[1]]);
    assert_eq!(by_file.out, compared(&stage, &[]), "{}", by_file.err);
    // One that does not verify is not compared.
    let forged = fs::read_to_string(&kept).expect("a record").replace("0.30 mm", "0.40 mm");
    stage.file("forged.json", &forged);
    let refused = stage.bayhand(&["compare", "forged.json", BOTH[1]]);
    assert_eq!((refused.code, refused.out.as_str()), (Some(1), ""), "{}", refused.err);
    let why = "forged.json is not compared, since it is not verified: forged.json: ";
    assert!(words_of(&refused.err).contains(why), "{}", refused.err);
}

#[test]
fn another_text_another_vehicle_and_another_procedure_are_said() {
    let stage = before_and_after();
    let text = stage
        .text("gap.md")
        .replace("max = \"0.5 mm\"", "max = \"0.4 mm\"")
        .replace("revision = \"A\"", "revision = \"B\"");
    stage.file("gap.md", &text);
    ran(&stage, ("2026-12-01", "9000 km", "other.toml"), &USUAL);
    let said = words_of(&stage.bayhand(&["compare", BOTH[0], "2026-12-01-gap"]).out);
    for words in [
        "NOT THE SAME VEHICLE.",
        "ANOTHER TEXT OF THE PROCEDURE: revision A before, B after",
        "− max = \"0.5 mm\"",
        "+ max = \"0.4 mm\"",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    stage.file("other.md", &text);
    let answers = stage.text("answers.toml");
    stage.file("answers.toml", &answers);
    let other = stage.bayhand(&["run", "other.md", "--vehicle", "one.toml", "--answers", "answers.toml"]);
    assert_eq!(other.code, Some(0), "{}", other.err);
    let refused = stage.bayhand(&["compare", BOTH[0], "2026-12-01-other"]);
    assert_eq!(refused.code, Some(1));
    assert!(
        words_of(&refused.err).contains("records of two procedures, `gap` and `other`"),
        "{}",
        refused.err
    );
    assert!(
        words_of(&refused.err).contains("bayhand records --procedure gap"),
        "the way out: {}",
        refused.err
    );
    let none = stage.bayhand(&["compare", BOTH[0], "2026-12-09-gap"]);
    assert!(none.code != Some(0) && none.err.contains("2026-12-09-gap"), "{}", none.err);
}

#[test]
fn hostile_words_stay_words() {
    let stage = stage();
    stage.file("one.toml", &sheet("<script>alert(1)</script>\u{202e}", "=cmd()"));
    ran(&stage, ("2026-10-12", "1 km", "one.toml"), &USUAL);
    ran(&stage, ("2026-11-12", "2 km", "one.toml"), &LATER);
    let html = compared(&stage, &["--html"]);
    assert!(html.contains("&lt;script&gt;alert(1)") && !html.contains("<script"), "{html}");
    for form in [&[][..], &["--html"], &["--markdown"], &["--csv"], &["--json"]] {
        let text = compared(&stage, form);
        assert!(form == ["--json"] || !text.contains('\u{202e}'), "{form:?}: {text}");
    }
}
