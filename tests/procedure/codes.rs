//! The tables of codes against the folders they describe.

use std::collections::BTreeSet;
use std::path::Path;

use bayhand::procedure::codes;
use bayhand::source::Code;
use bayhand::{answers, formula, job, vehicle};

use super::support::{repository, text};

/// The names of all codes that are written down in a folder.
fn declared_in(folder: &Path, names: &mut BTreeSet<String>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            declared_in(&path, names);
            continue;
        }
        let text = text(&path);
        for code in text.split(": Code = Code {").skip(1) {
            let name = code.split("name: \"").nth(1).unwrap().split('"').next().unwrap();
            assert!(names.insert(name.to_owned()), "{name} is declared twice");
        }
    }
}

fn listed(codes: &[&Code]) -> Vec<String> {
    codes.iter().map(|code| code.name.to_owned()).collect()
}

#[test]
fn the_table_lists_what_the_folder_declares() {
    let mut declared = BTreeSet::new();
    declared_in(&repository("src/procedure"), &mut declared);
    declared_in(&repository("src/table"), &mut declared);
    assert_eq!(listed(&codes()), declared.into_iter().collect::<Vec<_>>());
}

#[test]
fn each_other_table_lists_what_its_folder_declares() {
    let tables = [
        ("src/formula", formula::CODES),
        ("src/vehicle", vehicle::CODES),
        ("src/answers", answers::CODES),
        ("src/job", job::CODES),
    ];
    for (folder, codes) in tables {
        let mut declared = BTreeSet::new();
        declared_in(&repository(folder), &mut declared);
        assert_eq!(listed(codes), declared.into_iter().collect::<Vec<_>>(), "{folder}");
    }
}

/// Every code of the program.
fn all() -> impl Iterator<Item = &'static Code> {
    let tables = [formula::CODES, vehicle::CODES, answers::CODES, job::CODES];
    codes().into_iter().chain(tables.into_iter().flatten().copied())
}

#[test]
fn no_name_stands_for_two_codes() {
    let mut names = BTreeSet::new();
    for code in all() {
        assert!(names.insert(code.name), "{} is listed twice", code.name);
    }
}

#[test]
fn each_code_teaches_with_a_wrong_and_a_right_example() {
    for code in codes().into_iter().chain([vehicle::CODES, job::CODES].into_iter().flatten().copied()) {
        assert!(code.teaching.contains("\nWrong: ") && code.teaching.contains("\nRight: "), "{}", code.name);
        assert!(
            code.name.chars().all(|letter| letter.is_ascii_lowercase() || letter == '-'),
            "{}",
            code.name
        );
        assert!(!code.summary.ends_with('.'), "{}", code.name);
        assert!(code.teaching.lines().all(|line| line.chars().count() <= 115), "{}", code.name);
    }
}
