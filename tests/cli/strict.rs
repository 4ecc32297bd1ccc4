//! `bayhand check --strict`, and what `bayhand show` says of rules that are turned off.

use std::fs;

use crate::session::stage::Stage;

/// A stage with a golden case of procedures in its folder.
fn stage_with(case: &str) -> Stage {
    let stage = Stage::bare();
    let path = format!("{}/tests/cases/procedure/{case}.md", env!("CARGO_MANIFEST_DIR"));
    stage.file("case.md", &fs::read_to_string(path).expect("a file of the tests"));
    stage
}

#[test]
fn warnings_count_only_when_it_is_strict() {
    let stage = stage_with("two-actions");
    let lenient = stage.bayhand(&["check", "case.md"]);
    let strict = stage.bayhand(&["check", "--strict", "case.md"]);
    assert_eq!((lenient.code, strict.code), (Some(0), Some(1)));
    assert_eq!(lenient.out, strict.out);
    assert!(strict.out.contains("warning[two-actions]"), "{}", strict.out);
}

#[test]
fn nothing_to_report_is_done_when_it_is_strict_too() {
    let ended = stage_with("every-step-type").bayhand(&["check", "--strict", "case.md"]);
    assert_eq!((ended.code, ended.out.as_str()), (Some(0), "case.md: nothing to report\n"));
}

#[test]
fn the_help_says_what_strict_is() {
    let help = Stage::bare().bayhand(&["check", "--help"]);
    assert!(help.out.contains("--strict") && help.out.contains("exit code 1"), "{}", help.out);
}

/// Each fault of a procedure's structure is told with its line and gives a non-zero exit.
#[test]
fn each_fault_of_the_structure_gives_a_non_zero_exit_and_a_line() {
    for code in [
        "limits-missing",
        "fails-missing",
        "none-not-said",
        "mention-unknown",
        "step-unreachable",
        "condition-constant",
        "repeat-endless",
    ] {
        let ended = stage_with(code).bayhand(&["check", "--strict", "case.md"]);
        assert_eq!(ended.code, Some(1), "{code}");
        let told = ended.out.split(&format!("[{code}]")).nth(1).unwrap_or_default();
        let place = told.lines().find(|line| line.contains("case.md:")).unwrap_or_default();
        let line = place.split("case.md:").nth(1).and_then(|rest| rest.split(':').next());
        assert!(line.is_some_and(|line| line.parse::<usize>().is_ok()), "{code}\n{}", ended.out);
    }
}

#[test]
fn show_tells_which_rules_are_turned_off_and_why() {
    let stage = stage_with("rule-off-idle");
    let shown = stage.bayhand(&["show", "case.md"]);
    assert_eq!(shown.code, Some(0), "{}", shown.err);
    assert!(shown.out.contains("two-actions: one movement of one hand"), "{}", shown.out);
    let other = stage_with("every-step-type").bayhand(&["show", "case.md"]);
    assert!(!other.out.contains("turned off"), "{}", other.out);
}
