//! How much the example asks of a person: answers, keys, words, what of them is frame. Figures, no times.
//!
//! `cargo bench --bench weight`
#![allow(
    clippy::print_stdout,
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a bench prints, and fails at once"
)]

use std::error::Error;

use bayhand::answers::Script;
use bayhand::journal::{Pinned, Runs};
use bayhand::procedure;
use bayhand::run::Book;
use bayhand::session::LiveRun;
use bayhand::source::SourceText;
use bayhand::system::System;
use bayhand::vehicle;

#[path = "../whole/person.rs"]
mod person;

/// The ways to speak, each with its size. Words are counted where nothing has to make room.
const SIZES: [(&str, (usize, usize), bool); 5] = [
    ("screen", (80, 1000), false),
    ("plain", (80, 1000), true),
    ("80x24", (80, 24), false),
    ("40x24", (40, 24), false),
    ("40x14", (40, 14), false),
];

fn main() -> Result<(), Box<dyn Error>> {
    let folder = tempfile::tempdir()?;
    let text = std::fs::read_to_string("procedures/cooler-line-flush.md")?;
    let sheet = std::fs::read_to_string("procedures/vehicle-example.toml")?;
    let script = std::fs::read_to_string("procedures/answers-example.toml")?;
    for (name, (columns, height), keeps) in SIZES {
        let script = Script::read(&script).map_err(|_| "the answers cannot be read")?;
        let procedure =
            procedure::read(&SourceText::new("flush.md", &text), "flush").value.ok_or("it does not check")?;
        let sheet_text = SourceText::new("vehicle.toml", &sheet);
        let read = vehicle::read(&sheet_text).value.ok_or("the sheet cannot be read")?;
        let pinned = Pinned::of(&procedure, Some(&sheet_text));
        let runs = Runs::new(&System::real(), &folder.path().join(name));
        let book = Book { procedure, sheet: Some(read) };
        let mut live =
            LiveRun::start(&runs, book, pinned, None, &script.clock).map_err(|why| why.to_string())?;
        let shown = person::walked(&mut live, script, (columns, height), keeps);
        report(name, &shown, height);
    }
    Ok(())
}

fn report(size: &str, shown: &[person::Shown], height: usize) {
    let sum = |of: fn(&person::Shown) -> usize| shown.iter().map(of).sum::<usize>();
    let mut each: Vec<usize> = shown.iter().map(|shown| shown.words).collect();
    each.sort_unstable();
    let (words, frame) = (sum(|shown| shown.words), sum(|shown| shown.frame));
    let higher = shown.iter().filter(|shown| shown.rows > height).count();
    println!(
        "{size}: {} answers, {} keys, {words} words, frame {} %, words a question {} / {} (half, nine of ten), {higher} higher than the screen",
        shown.len(),
        sum(|shown| shown.keys),
        frame * 100 / words.max(1),
        each[each.len() / 2],
        each[each.len() * 9 / 10],
    );
}
