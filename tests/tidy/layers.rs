//! A folder of `src/` uses only those that stand before it; the outside is reached through `system` alone.

use super::files::below;

/// In the order in which data flows; `terminal`, `cli` and `system` stand apart.
const LAYERS: [&str; 18] = [
    "source",
    "print",
    "quantity",
    "trade",
    "formula",
    "table",
    "vehicle",
    "procedure",
    "run",
    "journal",
    "session",
    "answers",
    "record",
    "signature",
    "catalogue",
    "job",
    "kit",
    "share",
];

/// Layers that may use the outside door.
const TO_SYSTEM: [&str; 3] = ["journal", "session", "share"];

#[test]
fn a_layer_uses_only_those_before_it() {
    for (path, text) in below("src") {
        let folder = path.components().nth(1).unwrap().as_os_str().to_str().unwrap();
        let Some(place) = LAYERS.iter().position(|layer| *layer == folder) else { continue };
        for used in used(&text) {
            let earlier = LAYERS.iter().position(|layer| *layer == used).is_some_and(|other| other <= place);
            let door = used == "system" && TO_SYSTEM.contains(&folder);
            assert!(earlier || door, "{} uses `{used}`", path.display());
        }
    }
}

#[test]
fn the_door_outside_uses_nothing_of_ours() {
    for (path, text) in below("src/system") {
        for used in used(&text) {
            assert_eq!(used, "system", "{} uses `{used}`", path.display());
        }
    }
}

#[test]
fn every_folder_has_its_place() {
    let lib = include_str!("../../src/lib.rs");
    for line in lib.lines().filter_map(|line| line.strip_prefix("pub mod ")) {
        let folder = line.trim_end_matches(';');
        let apart = ["terminal", "cli", "system"].contains(&folder);
        assert!(apart || LAYERS.contains(&folder), "`{folder}` has no place among the layers");
        assert!(lib.contains(&format!("[`{folder}`]")), "`{folder}` is not on the map in lib.rs");
        let guide = include_str!("../../DEVELOPERS.md");
        assert!(guide.contains(&format!("`{folder}/`")), "`{folder}` is not on the map in DEVELOPERS.md");
    }
}

/// The modules of this crate that a text names, comments left out.
fn used(text: &str) -> Vec<&str> {
    let code = text.lines().filter(|line| !line.trim_start().starts_with("//"));
    let after = code.flat_map(|line| line.split("crate::").skip(1));
    after
        .map(|rest| rest.split(|letter: char| !letter.is_alphanumeric() && letter != '_').next().unwrap())
        .collect()
}

#[test]
fn the_reader_of_uses_finds_them() {
    assert_eq!(
        used("use crate::run::View;\n// crate::cli\nlet x = crate::formula::Value::Truth(true);"),
        ["run", "formula"]
    );
}
