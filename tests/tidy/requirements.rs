//! The table of what is asked for: each requirement has its tests, and each test is there.

use std::fs;

use super::files::root;

const TABLE: &str = include_str!("../REQUIREMENTS.txt");

/// A requirement with its tests: the path of each, and what it shows.
struct Asked {
    what: &'static str,
    tests: Vec<(&'static str, &'static str)>,
}

/// The requirements of the table, in its order.
fn asked() -> Vec<Asked> {
    let mut asked: Vec<Asked> = Vec::new();
    for line in TABLE.lines().filter(|line| !line.starts_with('#') && !line.is_empty()) {
        match line.strip_prefix("    ") {
            None => asked.push(Asked { what: line, tests: Vec::new() }),
            Some(test) => {
                let test =
                    test.split_once(" | ").unwrap_or_else(|| panic!("not a test and what it shows: {line}"));
                asked.last_mut().unwrap_or_else(|| panic!("shows no requirement: {line}")).tests.push(test);
            }
        }
    }
    asked
}

#[test]
fn each_requirement_is_a_sentence_and_has_a_test() {
    assert!(!asked().is_empty());
    for Asked { what, tests } in asked() {
        assert!(what.ends_with('.') && what.contains(' '), "not a sentence: {what}");
        assert!(!tests.is_empty(), "no test shows: {what}");
        assert!(tests.iter().all(|(_, shows)| !shows.trim().is_empty()), "a test of unknown use: {what}");
    }
}

#[test]
fn each_test_is_there() {
    for (path, _) in asked().into_iter().flat_map(|asked| asked.tests) {
        let (module, name) = path.rsplit_once("::").unwrap();
        let file = root().join("tests").join(module.replace("::", "/")).with_extension("rs");
        let text = fs::read_to_string(file).unwrap_or_else(|error| panic!("{path}: {error}"));
        let found = text.lines().any(|line| line.trim_start().starts_with(&format!("fn {name}(")));
        assert!(found, "no test `{name}` in {module}");
    }
}
