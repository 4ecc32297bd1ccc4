//! Of very many findings in one text a hundred are shown, errors first, and the others are counted.

use bayhand::source::{Code, Diagnostic, Look, Severity, SourceText, Span, render, to_json};

static CODE: Code = Code { name: "a-code", summary: "", teaching: "" };

fn many(warnings: usize, errors: usize) -> Vec<Diagnostic> {
    let at = |diagnostic: Diagnostic| diagnostic.at(Span::new(0, 4), "here");
    let warnings = (0..warnings).map(|number| at(Diagnostic::warning(&CODE, format!("doubt {number}"))));
    let errors = (0..errors).map(|number| at(Diagnostic::error(&CODE, format!("mistake {number}"))));
    warnings.chain(errors).collect()
}

fn shown(diagnostics: &[Diagnostic]) -> String {
    render(diagnostics, &SourceText::new("many.md", "many"), Look::PLAIN)
}

#[test]
fn a_hundred_are_all_shown() {
    let text = shown(&many(50, 50));
    assert_eq!(text.matches("[a-code]").count(), 100);
    assert!(!text.contains("more-findings"), "{text}");
}

#[test]
fn of_more_the_errors_come_first_and_the_rest_is_counted() {
    let text = shown(&many(4_391, 30));
    assert_eq!(text.matches("error[a-code]").count(), 30);
    assert_eq!(text.matches("warning[a-code]").count(), 70);
    assert!(text.contains("doubt 69") && !text.contains("doubt 70"), "the first ones, in their order");
    assert!(text.contains("warning[more-findings]: and 4,321 more\n"), "{text}");
    assert!(text.ends_with("mend those that are shown, then check again\n"), "{text}");
}

#[test]
fn where_errors_are_left_out_that_is_an_error() {
    let text = shown(&many(7, 1_234_561));
    assert!(text.contains("error[more-findings]: and 1,234,468 more\n"));
    assert!(!text.contains("doubt"), "no warning before an error");
}

#[test]
fn as_json_the_count_is_a_line_of_its_own() {
    let lines = to_json(&many(0, 150), &SourceText::new("many.md", "many"));
    let last: serde_json::Value = serde_json::from_str(lines.lines().last().expect("a line")).expect("JSON");
    assert_eq!(lines.lines().count(), 101);
    assert_eq!((&last["code"], &last["message"]), (&"more-findings".into(), &"and 50 more".into()));
    assert!(last["place"].is_null() && last["severity"] == "error");
    assert_eq!(Severity::Error, many(0, 1)[0].severity);
}

/// Labels far from each other: what lies between is not looked at, and the lines keep their numbers.
#[test]
fn labels_far_apart_are_shown_with_their_lines() {
    let text = format!("first\n{}last\n", "between\n".repeat(100_000));
    let end = text.len() - 5;
    let diagnostic = Diagnostic::error(&CODE, "far").at(Span::new(end, end + 4), "here");
    let text = SourceText::new("far.md", text);
    let shown = render(&[diagnostic.also(Span::new(0, 5), "and here")], &text, Look::PLAIN);
    assert!(shown.contains("     1 | first\n") && shown.contains("100002 | last\n"), "{shown}");
    assert!(shown.contains("...") && shown.lines().count() < 12, "{shown}");
}
