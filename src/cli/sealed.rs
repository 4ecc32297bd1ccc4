//! The sealed records: made, shown, and kept beside what they were made from.

use std::path::Path;

use super::Exit;
use super::context::Context;
use crate::journal::{RunId, Runs};
use crate::record::model::Record;
use crate::record::{self, Kept};
use crate::run::OpenItem;
use crate::session::StoredRun;
use crate::system::Why;
use crate::terminal::{Line, Text};

/// The record as data, in the folder of its run.
pub(super) const DATA: &str = "record.json";
/// The record as text, beside it.
const TEXT: &str = "record.txt";
/// The text that is kept is set this wide.
pub(super) const KEPT_WIDTH: usize = 80;
/// Far beyond any record.
pub(super) const MOST: u64 = 256 << 20;

/// Writes a record as text.
pub(super) fn show(context: &Context, record: &Record) -> Exit {
    context.write(&record::text::render(record, context.width()))
}

/// Writes the head of a record, and where the rest is.
pub(super) fn show_head(context: &Context, runs: &Runs, record: &Record) -> Exit {
    let folder =
        RunId::parse(&record.run).map(|id| runs.folder(&id).display().to_string()).unwrap_or_default();
    let rest = Text::new()
        .blank()
        .line(Line::plain(format!("The record is sealed; `bayhand record {}` prints all of it.", record.run)))
        .line(Line::plain(format!("Its files: {folder}")));
    match context.write(&record::text::head(record, context.width())) {
        Exit::Done => context.show(&rest),
        exit => exit,
    }
}

/// The sealed record of a run; of a closed one it is kept in its folder as data and as text. Of one that goes on nothing is
/// kept: the next would be another.
pub(super) fn sealed(context: &Context, runs: &Runs, id: &RunId) -> Result<Record, Exit> {
    let run = StoredRun::read(runs, id).map_err(|error| context.not_opened(&error))?;
    let lines = run.lines();
    let kept = Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &run.pinned };
    let record = record::build(&kept).map_err(|open| refused(context, id, &open))?;
    if record.closed.is_some() {
        let text = record::text::render(&record, KEPT_WIDTH);
        keep(context, &runs.folder(id), [&record::to_json(&record), &text], "the journal of the run")?;
    }
    Ok(record)
}

fn refused(context: &Context, id: &RunId, open: &[OpenItem]) -> Exit {
    let items: Vec<String> = open.iter().map(|item| format!("- {item}")).collect();
    context.found(&format!("run {id} has no record yet; this is open:\n{}", items.join("\n")))
}

/// Keeps a record as data and as text. One that is there already is never written over: if it is another, somebody changed
/// it, or what it was made from.
pub(super) fn keep(
    context: &Context,
    folder: &Path,
    [data, text]: [&str; 2],
    from: &str,
) -> Result<(), Exit> {
    for (name, bytes) in [(DATA, data), (TEXT, text)] {
        let path = folder.join(name);
        match context.system.disk().write_new(&path, bytes.as_bytes()) {
            Ok(()) => {}
            Err(error) if matches!(error.why, Why::AlreadyThere) => compare(context, &path, bytes, from)?,
            Err(error) => return Err(context.trouble(&error)),
        }
    }
    Ok(())
}

fn compare(context: &Context, path: &Path, expected: &str, from: &str) -> Result<(), Exit> {
    let found = context.system.disk().read_text(path, MOST).map_err(|error| context.trouble(&error))?;
    if found != expected {
        context.complain(&format!(
            "{} is not what {from} gives; it was left as it is. What follows is from the journal",
            path.display()
        ));
    }
    Ok(())
}
