use bayhand::source::{Code, Diagnostic, SourceText, Span, to_json};
use serde_json::{Value, json};

static CODE: Code = Code { name: "name-unknown", summary: "", teaching: "" };

fn parsed(line: &str) -> Value {
    serde_json::from_str(line).expect("each line is one JSON text")
}

/// Columns are counted in characters: `°` is two bytes and one column.
#[test]
fn a_diagnostic_says_its_place_in_lines_and_columns() {
    let text = SourceText::new("a.md", "first\n28 °C + pan\n");
    let start = text.text().find("pan").expect("it is there");
    let span = Span::new(start, start + 3);
    let diagnostic = Diagnostic::error(&CODE, "there is no `pan`")
        .at(span, "not declared")
        .also(Span::new(0, 5), "names are declared here")
        .note("a note")
        .help("declare it")
        .replace(span, "pan_temp");
    let line = parsed(&to_json(&[diagnostic], &text));
    let place =
        json!({"line": 2, "column": 9, "end_line": 2, "end_column": 12, "start_byte": 15, "end_byte": 18});
    assert_eq!(line["file"], "a.md");
    assert_eq!(line["place"], place);
    assert_eq!((&line["severity"], &line["code"]), (&json!("error"), &json!("name-unknown")));
    assert_eq!(line["message"], "there is no `pan`");
    assert_eq!(line["labels"][0], json!({"place": place, "text": "not declared", "primary": true}));
    assert_eq!(line["labels"][1]["primary"], false);
    assert_eq!((&line["notes"], &line["help"]), (&json!(["a note"]), &json!("declare it")));
    assert_eq!(line["fix"], json!({"place": place, "text": "pan_temp"}));
}

#[test]
fn several_diagnostics_are_several_lines() {
    let text = SourceText::new("a.md", "");
    let both = [Diagnostic::warning(&CODE, "one"), Diagnostic::error(&CODE, "two\nlines")];
    let lines: Vec<Value> = to_json(&both, &text).lines().map(parsed).collect();
    assert_eq!(lines.len(), 2);
    assert_eq!((&lines[0]["severity"], &lines[0]["place"]), (&json!("warning"), &Value::Null));
    assert_eq!(lines[1]["message"], "two\nlines");
}
