//! `bayhand record`

use std::path::Path;

use super::Exit;
use super::arguments;
use super::context::Context;
use crate::journal::{RunId, Runs};
use crate::print;
use crate::record::model::Record;
use crate::record::{self, Kept};
use crate::run::OpenItem;
use crate::session::StoredRun;
use crate::system::Why;
use crate::terminal::{Line, Text};

/// The record as data, in the folder of its run.
const DATA: &str = "record.json";
/// The record as text, beside it.
const TEXT: &str = "record.txt";
/// The text that is kept is set this wide.
const KEPT_WIDTH: usize = 80;
/// Far beyond any record.
const MOST: u64 = 256 << 20;

/// Prints the sealed record of a run; of one that is not closed as far as it has come.
pub(super) fn record(context: &Context, command: &arguments::Record) -> Exit {
    match formed(context, command) {
        Ok(text) => context.write_to(command.to.as_deref(), &text),
        Err(exit) => exit,
    }
}

/// The record in the form that was asked for.
fn formed(context: &Context, command: &arguments::Record) -> Result<String, Exit> {
    let form = &command.form;
    if form.schema {
        return Ok(record::SCHEMA.to_owned());
    }
    let runs = context.runs()?;
    let id = context.named_run(&runs, command.run.as_deref())?;
    let record = sealed(context, &runs, &id)?;
    let page = || record::report::page(&record);
    Ok(match form {
        arguments::RecordForm { json: true, .. } => record::to_json(&record),
        arguments::RecordForm { html: true, .. } => print::html(&page()),
        arguments::RecordForm { markdown: true, .. } => print::markdown(&page()),
        arguments::RecordForm { csv: true, .. } => record::to_csv(&record),
        _ if command.to.is_some() => record::text::render(&record, KEPT_WIDTH),
        _ => record::text::render(&record, context.width()),
    })
}

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
        keep(context, &runs.folder(id), &record)?;
    }
    Ok(record)
}

fn refused(context: &Context, id: &RunId, open: &[OpenItem]) -> Exit {
    let items: Vec<String> = open.iter().map(|item| format!("- {item}")).collect();
    context.found(&format!("run {id} has no record yet; this is open:\n{}", items.join("\n")))
}

/// A record that is there already is never written over: if it is another, somebody changed it.
fn keep(context: &Context, folder: &Path, record: &Record) -> Result<(), Exit> {
    for (name, bytes) in [(DATA, record::to_json(record)), (TEXT, record::text::render(record, KEPT_WIDTH))] {
        let path = folder.join(name);
        match context.system.disk().write_new(&path, bytes.as_bytes()) {
            Ok(()) => {}
            Err(error) if matches!(error.why, Why::AlreadyThere) => compare(context, &path, &bytes)?,
            Err(error) => return Err(context.trouble(&error)),
        }
    }
    Ok(())
}

fn compare(context: &Context, path: &Path, expected: &str) -> Result<(), Exit> {
    let found = context.system.disk().read_text(path, MOST).map_err(|error| context.trouble(&error))?;
    if found != expected {
        context.complain(&format!(
            "{} is not what the journal of the run gives; it was left as it is. What follows is from the journal",
            path.display()
        ));
    }
    Ok(())
}
