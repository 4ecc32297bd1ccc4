//! Files of words: procedures, jobs, sheets. Whatever is said of them points into them, and what is sound can be used.

use bayhand::job;
use bayhand::procedure;
use bayhand::run::{Ask, Book, Input};
use bayhand::source::{Colour, Diagnostic, Look, Severity, SourceText, render, to_json};
use bayhand::vehicle::{self, PutIn, amended};

use super::text;
use crate::run::drive::Drive;
use crate::run::invariants::answers::fitting;

/// A front matter that is complete, up to its tables, and a body that names what the fuzzer may have declared.
const HEAD: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-01\nauthor = \"test\"\nscope = \"any\"\n\
level_of_use = \"continuous\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\n";
const BODY: &str = "\n+++\n# Title\n\n## First [a]\n\n1. Do [b]: [c].\n2. [d] Do [e] and [f].\n   - [g] One.\n   - [h] Two.\n";

/// The whole text of a procedure.
pub fn procedure(bytes: &[u8]) {
    reads(&text(bytes));
}

/// Tables of the front matter.
pub fn front_matter(bytes: &[u8]) {
    reads(&format!("{HEAD}{}{BODY}", text(bytes)));
}

/// The whole text of a job.
pub fn job(bytes: &[u8]) {
    let source = SourceText::new("job.md", text(bytes));
    job::is_job(source.text());
    let found = job::read(&source, "job");
    points_into(&source, &found.diagnostics);
    only_what_is_sound(found.value.is_some(), &found.diagnostics);
}

/// A vehicle sheet. One that is sound takes a value, and is sound with it.
pub fn sheet(bytes: &[u8]) {
    let source = SourceText::new("sheet.toml", text(bytes));
    let found = vehicle::read(&source);
    points_into(&source, &found.diagnostics);
    only_what_is_sound(found.value.is_some(), &found.diagnostics);
    let Some(sheet) = found.value else { return };
    let names: Vec<String> = sheet.values().map(|(name, _)| name.to_owned()).take(3).collect();
    for name in names.into_iter().chain(["new_one".to_owned()]) {
        let put = PutIn { name, value: "4 mm".to_owned(), source: "\"page\" 7\\3\n".to_owned() };
        let with = amended(&source, std::slice::from_ref(&put), "Found later.");
        let found = vehicle::read(&with);
        points_into(&with, &found.diagnostics);
        if let Some(again) = found.value {
            let value = again.value(&put.name).expect("it was put in");
            assert_eq!(value.source, put.source);
            assert_eq!(again.vehicle(), sheet.vehicle());
        }
    }
}

fn reads(words: &str) {
    let source = SourceText::new("any.md", words);
    let found = procedure::read(&source, "any");
    points_into(&source, &found.diagnostics);
    only_what_is_sound(found.value.is_some(), &found.diagnostics);
    if let Some(procedure) = found.value {
        begins(Book::new(procedure, None));
    }
}

/// A procedure comes out where nothing is wrong with it, and only there.
fn only_what_is_sound(is_there: bool, said: &[Diagnostic]) {
    let is_wrong = said.iter().any(|said| said.severity == Severity::Error);
    assert_eq!(is_there, !is_wrong, "{said:#?}");
}

/// Every place that is pointed at lies in the text, between two characters; every printer prints it.
fn points_into(source: &SourceText, said: &[Diagnostic]) {
    let text = source.text();
    for said in said {
        let spans = said.labels.iter().map(|label| label.span).chain(said.fix.as_ref().map(|fix| fix.span));
        for span in spans {
            assert!(span.start <= span.end && text.get(span.start..span.end).is_some(), "{said:#?}");
        }
    }
    let shown = render(said, source, Look::PLAIN);
    assert_eq!(shown.is_empty(), said.is_empty());
    render(said, source, Look { colour: Colour::Ansi, width: 40 });
    to_json(said, source);
}

/// The first questions of a run of it: each is put in words, and a refusal changes nothing.
fn begins(book: Book) {
    let mut drive = Drive::begin(book);
    for round in 0..24_u8 {
        assert!(!drive.label().is_empty());
        let input = match drive.ask() {
            Ask::Finished => break,
            Ask::Wait { until, .. } => {
                drive.now = until;
                continue;
            }
            Ask::Resting => Input::Resume,
            _ => Input::Answer(fitting(&drive, round)),
        };
        let before = drive.state.clone();
        if drive.input(input).is_err() {
            assert_eq!(drive.state, before);
        }
    }
}
