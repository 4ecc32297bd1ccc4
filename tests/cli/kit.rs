//! `bayhand kit`. `BAYHAND_UPDATE=1` writes the expected pages anew.

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;

use crate::session::stage::{Ended, Stage, ended, words_of};

fn cases() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/kit")
}

fn kit(arguments: &[&str], width: usize) -> Ended {
    let mut command = Stage::bare().command(&[&["kit"], arguments].concat());
    ended(command.current_dir(cases()).env("COLUMNS", width.to_string()).output().unwrap())
}

fn expect(name: &str, arguments: &[&str], width: usize) {
    let page = kit(arguments, width);
    assert_eq!((page.code, page.err.as_str()), (Some(0), ""));
    let widest = page.out.lines().map(|line| line.chars().count()).max();
    assert!(widest <= Some(width), "{widest:?}\n{}", page.out);
    let path = cases().join(format!("{name}.{width}.txt"));
    if std::env::var_os("BAYHAND_UPDATE").is_some() {
        fs::write(&path, &page.out).unwrap();
    }
    let expected = fs::read_to_string(&path).unwrap_or_default();
    assert!(page.out == expected, "{} differs from:\n{}", path.display(), page.out);
}

/// Tools, materials and parts with the step and the role that need each first; moments for two; waits; what is required.
#[test]
fn the_page_for_one_vehicle_at_both_widths() {
    for width in [80, 40] {
        expect("case-oil", &["case-oil.md", "--vehicle", "vehicle.toml"], width);
    }
}

/// An amount that rests on the vehicle is said in words, with how to get its figure.
#[test]
fn the_page_without_a_vehicle_at_both_widths() {
    for width in [80, 40] {
        expect("no-vehicle", &["case-oil.md"], width);
    }
}

#[test]
fn the_same_as_data() {
    let data = |arguments: &[&str]| -> Value {
        serde_json::from_str(&kit(&[arguments, &["--json"]].concat(), 80).out).unwrap()
    };
    let known = data(&["case-oil.md", "--vehicle", "vehicle.toml"]);
    let oil = &known["materials"][1];
    // 1.6 L of the sheet and 0.5 L to spare.
    assert_eq!((&oil["name"], &oil["amount"]), (&Value::from("oil"), &Value::from("2.1 L")));
    assert_eq!(oil["first"], serde_json::json!({ "step": "2.2", "by": ["helper"] }));
    assert_eq!(known["tools"][2]["first"]["step"], Value::Null, "no step speaks of the lamp");
    assert_eq!(known["tools"][4]["range"], serde_json::json!(["0 °C", "80 °C"]));
    assert_eq!(known["waits"][0]["from"], "1.3");
    assert_eq!(known["level_of_use"], "continuous");
    let unknown = data(&["case-oil.md"]);
    let oil = &unknown["materials"][1];
    assert_eq!(oil["amount"], Value::Null);
    assert_eq!(oil["formula"], "[oil that the case takes] + 0.5 L");
}

/// What a linked procedure needs is laid out with the rest, and what it requires is said with its name.
#[test]
fn what_a_linked_procedure_needs_and_requires_is_there() {
    let stage = Stage::bare();
    let text = fs::read_to_string(cases().join("case-oil.md")).unwrap();
    stage.file("case-oil.md", &text);
    let outer = text.split("\n[roles]").next().unwrap();
    let body =
        "\n[roles]\nlead = \"does the work\"\n+++\n\n# Both cases\n\n1. [Change the oil](case-oil.md).\n";
    let none = "tools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\n";
    let outer = outer.replace("nobody needs it tonight", "the gate is open");
    stage.file("outer.md", &format!("{outer}{none}{body}"));
    let page = stage.bayhand(&["kit", "outer.md"]);
    assert_eq!((page.code, page.err.as_str()), (Some(0), ""));
    let said = words_of(&page.out);
    for words in [
        "- measuring jug, good to ±0.02 L (first at 1.1.2.4, helper)",
        "- the gate is open",
        "- nobody needs it tonight (for: Change the oil of the transfer case)",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
}

/// A rehearsal ends in the same lists, by the steps that were walked.
#[test]
fn a_rehearsal_ends_in_the_same_lists() {
    let stage = Stage::with_flush();
    let files = ["cooler-line-flush.md", "--vehicle", "vehicle-example.toml"];
    let kit = stage.bayhand(&[&["kit"], &files[..]].concat()).out;
    let walked =
        stage.bayhand(&[&["rehearse"], &files[..], &["--answers", "answers-example.toml"]].concat()).out;
    let lists = |page: &str| {
        let from = page.find("Tools to lay out:").unwrap();
        page[from..page.find("Moments for two:").unwrap()].to_owned()
    };
    assert_eq!(lists(&kit), lists(&walked));
}

#[test]
fn a_procedure_that_is_not_sound_is_told_so() {
    let stage = Stage::bare();
    stage.file("case.md", "no procedure");
    let page = stage.bayhand(&["kit", "case.md"]);
    assert_eq!((page.code, page.out.as_str()), (Some(1), ""));
    assert!(page.err.contains("case.md"), "{}", page.err);
}
