//! The table of what is asked for: each number has its tests, and each test is there.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

const TABLE: &str = include_str!("../REQUIREMENTS.txt");

/// The lines of the table: number, test, what it shows.
fn lines() -> Vec<[&'static str; 3]> {
    let lines = TABLE.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
    let parts = lines.map(|line| {
        let parts: Vec<&str> = line.split(" | ").collect();
        parts.try_into().unwrap_or_else(|_| panic!("not three parts: {line}"))
    });
    parts.collect()
}

#[test]
fn each_number_has_a_test() {
    let numbers: BTreeSet<u32> = lines().iter().map(|[number, ..]| number.parse().unwrap()).collect();
    let wanted: BTreeSet<u32> = (1..=48).chain(64..=76).collect();
    let missing: Vec<&u32> = wanted.difference(&numbers).collect();
    assert!(missing.is_empty(), "no test for {missing:?}");
    assert!(lines().iter().all(|[_, _, shows]| !shows.trim().is_empty()));
}

#[test]
fn each_test_is_there() {
    for [number, path, _] in lines() {
        let (module, name) = path.rsplit_once("::").unwrap();
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests").join(module.replace("::", "/"));
        let text = fs::read_to_string(file.with_extension("rs"));
        let text = text.unwrap_or_else(|error| panic!("{number}: {path}: {error}"));
        let found = text.lines().any(|line| line.trim_start().starts_with(&format!("fn {name}(")));
        assert!(found, "{number}: no test `{name}` in {module}");
    }
}
