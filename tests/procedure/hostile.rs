//! No text makes reading panic, and every place that is pointed at lies in the text.

use bayhand::procedure::read;
use bayhand::source::{Look, SourceText, render};
use bayhand::vehicle;
use proptest::prelude::*;

use super::support::{repository, text};

fn holds(text: &str) {
    let source = SourceText::new("hostile.md", text);
    for found in [read(&source, "hostile").diagnostics, vehicle::read(&source).diagnostics] {
        for said in &found {
            assert!(said.labels.iter().all(|label| label.span.end <= text.len()), "{said:?}");
            assert!(said.labels.iter().all(|label| label.span.start <= label.span.end), "{said:?}");
        }
        render(&found, &source, Look::PLAIN);
    }
}

/// A whole procedure with everything in it.
fn whole() -> String {
    text(&repository("tests/cases/procedure/ten-mistakes.md"))
}

proptest! {
    #![proptest_config(crate::campaign::cases(200))]

    #[test]
    fn any_text(text in any::<String>()) {
        holds(&text);
    }

    #[test]
    fn any_bytes(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        holds(&String::from_utf8_lossy(&bytes));
    }

    #[test]
    fn any_front_matter(toml in "[a-z_\\[\\].= \"'0-9\n{},#+-]{0,200}") {
        holds(&format!("+++\n{toml}\n+++\n# Title\n\n1. Step [name].\n"));
    }

    #[test]
    fn any_body(body in "[a-z_\\[\\]()!^:*>#|` 0-9.\n+-]{0,300}") {
        holds(&whole().replace("# Measure", &format!("{body}\n# Measure")));
    }

    #[test]
    fn a_procedure_with_a_piece_cut_out(from in any::<prop::sample::Index>(), length in 1usize..60) {
        let mut letters: Vec<char> = whole().chars().collect();
        let start = from.index(letters.len());
        let end = (start + length).min(letters.len());
        letters.drain(start..end);
        holds(&letters.into_iter().collect::<String>());
    }

    #[test]
    fn a_procedure_with_a_piece_put_in(from in any::<prop::sample::Index>(), piece in "[\\[\\]\"'\n+=a-z0-9 .*/<>-]{1,12}") {
        let mut letters: Vec<char> = whole().chars().collect();
        let start = from.index(letters.len());
        letters.splice(start..start, piece.chars());
        holds(&letters.into_iter().collect::<String>());
    }

    #[test]
    fn line_endings_make_no_difference(seed in 0usize..40) {
        let text = whole();
        let line = text.lines().nth(seed).unwrap_or_default();
        let shorter = text.replacen(&format!("{line}\n"), "", 1);
        let unix: Vec<_> = said(&shorter);
        let windows: Vec<_> = said(&shorter.replace('\n', "\r\n"));
        prop_assert_eq!(unix, windows);
    }
}

fn said(text: &str) -> Vec<(String, usize)> {
    let source = SourceText::new("lines.md", text);
    let line = |said: &bayhand::source::Diagnostic| source.position(said.place().unwrap().start).line;
    read(&source, "lines").diagnostics.iter().map(|said| (said.message.clone(), line(said))).collect()
}
