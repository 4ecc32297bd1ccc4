//! The examples of the CommonMark specification (version 0.31.2) as bodies of procedures.
//!
//! `tests/cases/commonmark/SOURCE.txt` says where they come from and under which licence.

use std::collections::BTreeMap;

use bayhand::procedure::document::{Outline, outline, split};
use bayhand::procedure::{Passage, Piece, read};
use bayhand::source::SourceText;
use serde::Deserialize;

use super::support::file;

const EXAMPLES: &str = include_str!("../cases/commonmark/examples.json");

/// One example: the Markdown, and the HTML it stands for.
#[derive(Deserialize)]
struct Example {
    markdown: String,
    html: String,
}

fn examples() -> Vec<Example> {
    serde_json::from_str(EXAMPLES).unwrap()
}

fn outline_of(markdown: &str) -> Outline {
    let text = file("", markdown);
    let body = split(&text).value.body;
    outline(&text, body, &|_| false).value
}

/// Everything an outline shows, in one string.
fn shown(outline: &Outline) -> String {
    let mut all = String::new();
    let mut add = |pieces: &[Piece]| {
        for piece in pieces {
            match piece {
                Piece::Text(text) => all.push_str(text),
                Piece::Mention(name) => all.push_str(name.value.as_str()),
            }
        }
        all.push('\n');
    };
    let headings = outline.parts.iter().filter_map(|part| part.heading.as_ref());
    outline.title.iter().chain(headings).for_each(|heading| add(&heading.text));
    let prose = outline.introduction.iter().chain(outline.parts.iter().flat_map(|part| &part.after));
    let inside = outline.steps.iter().flat_map(|step| step.before.iter().chain(&step.passages));
    prose.chain(inside).for_each(|passage: &Passage| add(&passage.text));
    outline.steps.iter().for_each(|step| add(&step.text));
    all
}

/// How often each letter and digit stands in a text.
fn letters(text: &str) -> BTreeMap<char, usize> {
    let mut letters = BTreeMap::new();
    for letter in text.chars().filter(|letter| letter.is_alphanumeric()) {
        *letters.entry(letter).or_default() += 1;
    }
    letters
}

/// What a reader of the HTML sees: tags taken off, entities decoded, the descriptions of images put in.
fn read_aloud(html: &str) -> String {
    let mut text = String::new();
    for (index, piece) in html.split('<').enumerate() {
        let (tag, words) =
            if index == 0 { ("", piece) } else { piece.split_once('>').unwrap_or(("", piece)) };
        if tag.starts_with("img") {
            text.push_str(
                tag.split("alt=\"").nth(1).and_then(|rest| rest.split('"').next()).unwrap_or_default(),
            );
        }
        text.push_str(words);
    }
    text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&")
}

#[test]
fn there_are_all_652_examples() {
    assert_eq!(examples().len(), 652);
}

#[test]
fn no_example_loses_a_letter() {
    for (index, example) in examples().iter().enumerate() {
        let shown = shown(&outline_of(&example.markdown));
        let found = letters(&shown);
        for (letter, count) in letters(&read_aloud(&example.html)) {
            let kept = found.get(&letter).copied().unwrap_or_default();
            assert!(
                kept >= count,
                "example {}: {letter:?} of\n{}\nin {shown:?}",
                index + 1,
                example.markdown
            );
        }
    }
}

#[test]
fn each_example_is_read_as_a_body_without_a_crash() {
    for example in examples() {
        for body in [format!("# Title\n\n1. Step.\n\n{}", example.markdown), example.markdown.clone()] {
            let text = SourceText::new("example.md", file("", &body));
            for said in read(&text, "example").diagnostics {
                assert!(
                    said.labels
                        .iter()
                        .all(|label| text.text().get(label.span.start..label.span.end).is_some())
                );
            }
        }
    }
}
