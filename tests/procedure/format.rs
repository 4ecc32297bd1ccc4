//! The examples of `procedures/FORMAT.md` are run: whole procedures as they stand, the pieces put together as one.

use std::collections::BTreeSet;

use bayhand::procedure::{CheckedProcedure, check_sheet};
use bayhand::source::{Look, SourceText, render};
use bayhand::vehicle;
use pulldown_cmark::{CodeBlockKind, Event, Parser, Tag, TagEnd};

use super::support::{files, found, repository, text};

/// The fenced blocks that are marked with a word, in order.
fn blocks(mark: &str) -> Vec<String> {
    let format = text(&repository("procedures/FORMAT.md"));
    let mut blocks = Vec::new();
    let mut open: Option<String> = None;
    for event in Parser::new(&format) {
        match event {
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(info)))
                if info.split(' ').any(|word| word == mark) =>
            {
                open = Some(String::new());
            }
            Event::Text(text) => open.iter_mut().for_each(|block| block.push_str(&text)),
            Event::End(TagEnd::CodeBlock) => blocks.extend(open.take()),
            _ => {}
        }
    }
    blocks
}

/// A procedure about which nothing is to be said.
fn spotless(file: &str) -> CheckedProcedure {
    let found = found(file);
    let said = render(&found.diagnostics, &SourceText::new("example.md", file), Look::PLAIN);
    assert!(said.is_empty(), "{said}");
    found.value.unwrap()
}

fn put_together() -> CheckedProcedure {
    spotless(&format!("+++\n{}+++\n{}", blocks("front-matter").join("\n"), blocks("body").join("\n")))
}

#[test]
fn whole_procedures_are_sound() {
    let whole = blocks("procedure");
    assert!(!whole.is_empty());
    for file in &whole {
        spotless(file);
    }
}

#[test]
fn the_pieces_put_together_are_a_procedure() {
    assert!(blocks("front-matter").len() >= 10);
    let procedure = put_together();
    assert_eq!(procedure.sections().len(), 4);
    assert_eq!(procedure.step(bayhand::procedure::StepId(4)).unwrap().number, "2.2.1");
}

#[test]
fn the_vehicle_sheet_does_for_it() {
    let sheet = blocks("sheet").remove(0);
    let source = SourceText::new("sheet.toml", sheet);
    let found = vehicle::read(&source);
    let mut said = found.diagnostics;
    said.extend(check_sheet(&put_together(), &found.value.unwrap()));
    assert!(said.is_empty(), "{}", render(&said, &source, Look::PLAIN));
}

#[test]
fn the_job_is_one() {
    let job = blocks("job").remove(0);
    let source = SourceText::new("job.md", job);
    let found = bayhand::job::read(&source, "job");
    assert!(found.diagnostics.is_empty(), "{}", render(&found.diagnostics, &source, Look::PLAIN));
    assert_eq!(found.value.map(|job| job.procedures.len()), Some(2));
}

#[test]
fn every_block_is_marked() {
    let format = text(&repository("procedures/FORMAT.md"));
    let fences = format.lines().filter(|line| line.starts_with("```")).count() / 2;
    let marked: usize =
        ["procedure", "front-matter", "body", "sheet", "job"].iter().map(|mark| blocks(mark).len()).sum();
    assert_eq!(fences, marked);
    assert!(format.lines().count() < 650);
}

fn is_of_a_key(letter: char) -> bool {
    letter == '_' || letter.is_ascii_lowercase()
}

/// The keys that a text of the code asks `fields` or `front` for: `fields.text("what", ..)`, `unit(fields, "unit")`.
fn asked_for(code: &str) -> impl Iterator<Item = &str> {
    let after = ["fields", "front"].into_iter().flat_map(|asked| code.split(asked).skip(1));
    after.filter_map(|rest| {
        let method = rest.strip_prefix('.').map(|call| call.trim_start_matches(is_of_a_key));
        let quoted = method.and_then(|call| call.strip_prefix('(')).or_else(|| rest.strip_prefix(", "))?;
        let key = quoted.strip_prefix('"')?.split('"').next()?;
        key.chars().all(is_of_a_key).then_some(key)
    })
}

#[test]
fn every_key_that_is_read_is_explained() {
    let format = text(&repository("procedures/FORMAT.md"));
    let folders = ["src/procedure/written", "src/vehicle", "src/table"];
    let code: String =
        folders.iter().flat_map(|folder| files(folder, "rs")).map(|path| text(&path)).collect();
    // These are asked for by the names of constants.
    let keys: BTreeSet<&str> = asked_for(&code).chain(["required", "close_up", "above", "below"]).collect();
    assert!(keys.len() > 80, "the keys are found: {keys:?}");
    for key in keys {
        let written = [format!("`{key}`"), format!("{key} = "), format!("[{key}]"), format!("[{key}.")];
        assert!(written.iter().any(|written| format.contains(written)), "{key}");
    }
}
