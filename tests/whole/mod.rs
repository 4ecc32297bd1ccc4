//! The example, walked wholly at a terminal by a person who answers as its file of answers says: what that weighs, and what
//! each screen shows.

mod keys;
mod person;
mod screens;
mod weight;

use bayhand::answers::Script;
use bayhand::journal::{Pinned, Runs};
use bayhand::procedure;
use bayhand::run::Book;
use bayhand::session::LiveRun;
use bayhand::source::SourceText;
use bayhand::system::System;
use bayhand::vehicle;

use self::person::{Shown, walked};

/// Every screen of the example at a terminal of this size.
fn walk(size: (usize, usize), keeps: bool) -> Vec<Shown> {
    let read = |name: &str| std::fs::read_to_string(format!("procedures/{name}")).expect("an example");
    let script = Script::read(&read("answers-example.toml")).expect("the answers");
    let text = SourceText::new("cooler-line-flush.md", read("cooler-line-flush.md"));
    let procedure = procedure::read(&text, "cooler-line-flush").value.expect("the procedure");
    let sheet_text = SourceText::new("vehicle-example.toml", read("vehicle-example.toml"));
    let sheet = vehicle::read(&sheet_text).value.expect("the sheet");
    let folder = tempfile::tempdir().expect("a folder");
    let runs = Runs::new(&System::real(), folder.path());
    let pinned = Pinned::of(&procedure, Some(&sheet_text));
    let book = Book { procedure, sheet: Some(sheet) };
    let mut live = LiveRun::start(&runs, book, pinned, None, &script.clock).expect("a run");
    walked(&mut live, script, size, keeps)
}
