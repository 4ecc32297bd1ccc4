//! The published schemas of what is printed over several runs: each command prints its own, and prints what it says.

use serde_json::{Value, json};

use super::two_runs::{Read, USUAL, ran, stage};
use crate::record::schema::fits;
use crate::session::stage::Stage;

/// Two runs on one vehicle that differ in every way that a comparison knows: by much, by little, and in a word.
fn two() -> Stage {
    let stage = stage();
    ran(&stage, ("2026-10-12", "151200 km", "one.toml"), &USUAL);
    let later =
        Read { gaps: ["0.42 mm", "0.25 mm"], level: "14 mm", oil: "dark", bolts: ["48 N·m", "51 N·m"] };
    ran(&stage, ("2026-11-12", "152900 km", "one.toml"), &later);
    stage
}

fn printed(stage: &Stage, arguments: &[&str]) -> Value {
    let ended = stage.bayhand(arguments);
    assert_eq!(ended.err, "", "{arguments:?}");
    serde_json::from_str(&ended.out).expect("JSON")
}

/// That it fits, and would not with a field more in this place, one less, or another sort of thing in one.
fn holds(schema: &Value, data: &Value, first: &str) {
    assert!(fits(schema, data, schema), "{data}");
    let with = |change: &dyn Fn(&mut Value)| {
        let mut data = data.clone();
        change(data.pointer_mut(first).expect("a place"));
        data
    };
    let name =
        data.pointer(first).and_then(Value::as_object).expect("fields").keys().next().expect("a field");
    for wrong in [
        with(&|at| at["more"] = json!(1)),
        with(&|at| drop(at.as_object_mut().unwrap().remove(name))),
        with(&|at| at[name] = json!(["no such thing"])),
    ] {
        assert!(!fits(schema, &wrong, schema), "{wrong}");
    }
}

const RUNS: [&str; 2] = ["2026-10-12-gap", "2026-11-12-gap"];

#[test]
fn of_a_comparison() {
    let stage = two();
    let schema = printed(&stage, &["compare", "--schema"]);
    let data = printed(&stage, &["compare", RUNS[0], RUNS[1], "--json"]);
    for place in ["", "/before", "/readings/0", "/readings/0/before", "/readings/0/meaning", "/counts/0"] {
        holds(&schema, &data, place);
    }
    let words: Vec<&Value> =
        data["readings"].as_array().unwrap().iter().map(|one| &one["meaning"]["word"]).collect();
    for word in ["more_than_the_instruments", "maybe_the_instruments", "no_accuracy_stated", "none"] {
        assert!(words.contains(&&json!(word)), "{words:?}");
    }
}

#[test]
fn of_a_history() {
    let stage = two();
    let schema = printed(&stage, &["history", "--schema"]);
    for name in ["gap", "oil", "uneven", "side", "time at work"] {
        let data = printed(&stage, &["history", name, "--json"]);
        holds(&schema, &data, "");
        holds(&schema, &data, "/taken/0");
    }
    holds(&schema, &printed(&stage, &["history", "gap", "--json"]), "/taken/0/upper");
}

#[test]
fn of_an_impact_with_an_error_and_without() {
    let stage = two();
    let schema = printed(&stage, &["impact", "--schema"]);
    let taken = printed(&stage, &["impact", "TW-1", "--json"]);
    holds(&schema, &taken, "/0");
    let again = printed(&stage, &["impact", "TW-1", "--error", "+8 %", "--json"]);
    for place in ["", "/runs/0", "/runs/0/readings/0"] {
        holds(&schema, &again, place);
    }
    // A run that cannot be read is in each of them.
    let journal = stage.data().join("runs/2026-10-12-gap/journal.jsonl");
    let text = std::fs::read_to_string(&journal).expect("a journal");
    std::fs::write(&journal, text.replace("0.30 mm", "0.31 mm")).expect("an edit");
    let taken = printed(&stage, &["impact", "TW-1", "--json"]);
    assert!(taken.as_array().expect("a list").iter().any(|row| row["trouble"].is_string()), "{taken}");
    assert!(fits(&schema, &taken, &schema), "{taken}");
    holds(&schema, &printed(&stage, &["impact", "TW-1", "--error", "+8 %", "--json"]), "/unread/0");
    let history = printed(&stage, &["history", "--schema"]);
    holds(&history, &printed(&stage, &["history", "gap", "--json"]), "/unread/0");
}

#[test]
fn only_for_its_schema_a_command_needs_nothing() {
    let stage = Stage::bare();
    for command in [&["compare"][..], &["compare", "one"], &["history"], &["impact"]] {
        let ended = stage.bayhand(command);
        assert_eq!(ended.code, Some(2), "{command:?}");
        assert!(ended.err.contains("required"), "{command:?}: {}", ended.err);
    }
}
