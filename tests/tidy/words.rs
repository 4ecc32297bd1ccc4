//! Words that stand nowhere in the project, and files that stay readable.

use std::collections::BTreeSet;

use super::files::below;

/// Papers that the project was made from but does not depend on, and leftovers.
const NOWHERE: [&str; 6] = [
    concat!("check-", "values"),
    concat!("features", ".md"),
    concat!("../", "shared"),
    concat!("TO", "DO"),
    concat!("FIX", "ME"),
    concat!("/work", "/"),
];

#[test]
fn the_project_leans_on_nothing_outside() {
    let folders = ["src", "tests", "procedures", ".ci", "README.md", "DEVELOPERS.md", "Cargo.toml"];
    for (path, text) in folders.into_iter().flat_map(below) {
        for word in NOWHERE {
            assert!(!text.contains(word), "{} says `{word}`", path.display());
        }
    }
}

#[test]
fn files_stay_small() {
    const MOST_LINES: usize = 400;
    for (path, text) in below("src") {
        let lines = text.lines().count();
        assert!(
            lines <= MOST_LINES,
            "{} has {lines} lines; would a newcomer see one idea in it?",
            path.display()
        );
    }
}

#[test]
fn each_file_says_what_it_is_for() {
    for (path, text) in below("src") {
        let is_code = path.extension().is_some_and(|ending| ending == "rs");
        assert!(!is_code || text.starts_with("//!"), "{} does not say what it is for", path.display());
    }
}

/// Each package is something to fetch, build, watch and trust, on every platform: more than this needs a better reason
/// than a feature that was left on.
#[test]
fn few_packages_are_locked() {
    const MOST: usize = 150;
    let lock: toml::Table = include_str!("../../Cargo.lock").parse().unwrap();
    let count = lock["package"].as_array().unwrap().len();
    assert!(count <= MOST, "{count} packages are locked, more than {MOST}");
}

/// The fuzzer and the bench of formulas have locks of their own: with an old one neither can be built.
#[test]
fn the_packages_beside_this_one_lock_what_it_depends_on() {
    let manifest: toml::Table = include_str!("../../Cargo.toml").parse().unwrap();
    let unix = &manifest["target"]["cfg(unix)"]["dependencies"];
    let own = manifest["dependencies"].as_table().unwrap().keys().chain(unix.as_table().unwrap().keys());
    let own: BTreeSet<&str> = own.map(String::as_str).collect();
    for lock in [include_str!("../fuzz/Cargo.lock"), include_str!("../benches/expression/Cargo.lock")] {
        let lock: toml::Table = lock.parse().unwrap();
        let packages = lock["package"].as_array().unwrap();
        let bayhand = packages.iter().find(|package| package["name"].as_str() == Some("bayhand")).unwrap();
        let locked = bayhand["dependencies"].as_array().unwrap().iter();
        // Where two versions of one are locked, the version stands behind its name.
        let locked = locked.map(|name| name.as_str().unwrap().split(' ').next().unwrap());
        assert_eq!(locked.collect::<BTreeSet<_>>(), own, "`cargo update --workspace` makes the lock anew");
    }
}

#[test]
fn each_dependency_earns_its_line() {
    let manifest = include_str!("../../Cargo.toml");
    let mut inside = false;
    let mut before = "";
    for line in manifest.lines() {
        if line.starts_with('[') {
            inside = line.contains("dependencies");
        } else if inside && line.contains('=') && !line.starts_with('#') {
            assert!(before.starts_with('#') || before.contains('='), "no reason above `{line}`");
        }
        before = line;
    }
}

/// What is published builds and carries its procedures; the tests stay here.
#[test]
fn the_package_holds_the_program_and_what_it_carries() {
    let manifest: toml::Table = include_str!("../../Cargo.toml").parse().unwrap();
    let included: Vec<&str> =
        manifest["package"]["include"].as_array().unwrap().iter().filter_map(toml::Value::as_str).collect();
    assert_eq!(included, ["/src", "/procedures", "/README.md", "/DEVELOPERS.md", "/LICENSE"]);
    for (path, text) in below("src") {
        for outside in text.split("include_str!(").skip(1).filter(|rest| rest.contains("../../")) {
            let inside = outside.split(')').next().unwrap();
            assert!(inside.contains("../../procedures/"), "{} carries {inside}", path.display());
        }
    }
}
