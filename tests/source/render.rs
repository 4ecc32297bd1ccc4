use bayhand::source::{Code, Colour, Diagnostic, Look, SourceText, Span, render};
use proptest::prelude::*;

static CODE: Code = Code { name: "name-unknown", summary: "", teaching: "" };

fn found(text: &SourceText, word: &str) -> Span {
    let start = text.text().find(word).expect("the word is in the text");
    Span::new(start, start + word.len())
}

#[test]
fn a_diagnostic_shows_its_place_its_reason_and_its_mending() {
    let text = SourceText::new("job.md", "unit = '°C'\nmax = 'pan_tmep + 5 K'\n\nmore\n");
    let span = found(&text, "pan_tmep");
    let diagnostic = Diagnostic::error(&CODE, "there is no `pan_tmep` here")
        .at(span, "not declared anywhere")
        .also(found(&text, "'°C'"), "the reading's unit")
        .note("a limit may use readings and vehicle values")
        .help("did you mean `pan_temp`?")
        .replace(span, "pan_temp");
    let expected = "\
error[name-unknown]: there is no `pan_tmep` here
 --> job.md:2:8
  |
1 | unit = '°C'
  |        ---- the reading's unit
2 | max = 'pan_tmep + 5 K'
  |        ^^^^^^^^ not declared anywhere
  |
  = note: a limit may use readings and vehicle values
  = help: did you mean `pan_temp`?
help: this would mend it
  |
2 - max = 'pan_tmep + 5 K'
2 + max = 'pan_temp + 5 K'
  |
";
    assert_eq!(render(&[diagnostic], &text, Look::PLAIN), expected);
}

#[test]
fn a_note_ends_its_rows_at_spaces_and_between_ideographs() {
    let text = SourceText::new("job.md", "");
    let note = format!("at least 2.5\u{a0}L/min {}", "温度計を見る。".repeat(5));
    let shown =
        render(&[Diagnostic::error(&CODE, "low").note(note)], &text, Look { width: 40, ..Look::PLAIN });
    let rows: Vec<&str> = shown.lines().skip_while(|row| !row.contains("note")).map(str::trim).collect();
    let expected = [
        "= note: at least 2.5\u{a0}L/min 温度計",
        "を見る。温度計を見る。温度",
        "計を見る。温度計を見る。温",
        "度計を見る。",
    ];
    assert_eq!(rows, expected);
}

#[test]
fn a_very_long_line_is_clipped_around_its_labels() {
    let far = "lorem ".repeat(60);
    let text = SourceText::new("job.md", format!("1. [first] {far}[second] {far}\n"));
    let diagnostic = Diagnostic::error(&CODE, "twice")
        .at(found(&text, "[second]"), "here")
        .also(found(&text, "[first]"), "and here");
    let look = Look { colour: Colour::Plain, width: 72 };
    let shown = render(&[diagnostic], &text, look);
    assert!(shown.contains("[first]") && shown.contains("[second]"), "{shown}");
    assert!(shown.contains("job.md:1:372"), "the true column: {shown}");
    assert!(shown.lines().all(|line| line.chars().count() <= 90), "{shown}");
}

#[test]
fn control_characters_of_the_source_never_reach_the_terminal() {
    let text = SourceText::new("a\u{1b}c.md", "x = \u{1b}[2J\u{202e}yes\r\n");
    let diagnostic = Diagnostic::error(&CODE, "bad \u{1b}[31m")
        .at(found(&text, "yes"), "la\u{7}bel")
        .note("no\u{9b}te")
        .help("he\u{1b}lp")
        .replace(found(&text, "yes"), "\u{1b}no");
    let shown = render(&[diagnostic], &text, Look::PLAIN);
    assert!(!shown.chars().any(|c| c.is_control() && c != '\n'), "{shown:?}");
    assert!(!shown.contains('\u{202e}'));
}

#[test]
fn colour_is_used_only_when_asked_for() {
    let text = SourceText::new("a.md", "x");
    let diagnostic = [Diagnostic::warning(&CODE, "odd").at(Span::new(0, 1), "here")];
    let ansi = Look { colour: Colour::Ansi, width: 80 };
    assert!(render(&diagnostic, &text, ansi).contains("\u{1b}["));
    assert!(!render(&diagnostic, &text, Look::PLAIN).contains('\u{1b}'));
}

#[test]
fn a_diagnostic_without_a_place_names_the_file() {
    let text = SourceText::new("a.md", "");
    let shown = render(&[Diagnostic::error(&CODE, "nothing is in it")], &text, Look::PLAIN);
    assert_eq!(shown, "error[name-unknown]: nothing is in it\n--> a.md\n");
}

proptest! {
    /// Spans come from several stages and may be wrong; a renderer must still show something.
    #[test]
    fn any_span_of_any_text_can_be_shown(
        text in "(.|\n|\r\n|°){0,300}",
        spans in prop::collection::vec((0usize..400, 0usize..400), 0..5),
        width in 0usize..120,
    ) {
        let text = SourceText::new("any", text);
        let mut diagnostic = Diagnostic::error(&CODE, "any");
        for (start, end) in spans {
            diagnostic = diagnostic.at(Span::new(start, end), "here").replace(Span::new(start, end), "x");
        }
        let shown = render(&[diagnostic], &text, Look { colour: Colour::Plain, width });
        prop_assert!(shown.contains("any"));
    }
}
