//! The sealed records: made, shown, and kept beside what they were made from.

use std::path::Path;

use super::Exit;
use super::beside::{self, DATA, Fault, KEPT_WIDTH, TEXT};
use super::context::Context;
use crate::journal::{RunId, Runs};
use crate::record::model::Record;
use crate::record::{self, Finding, Kept};
use crate::session::StoredRun;
use crate::system::Why;
use crate::terminal::{Line, Text};

/// A sealed record, and what was found to be unlike it.
pub(super) struct Sealed {
    pub(super) record: Record,
    faults: Vec<Fault>,
}

/// Writes a record as text.
pub(super) fn show(context: &Context, sealed: &Sealed) -> Exit {
    found(sealed, context.write(&record::text::render(&sealed.record, context.width())))
}

/// How it ends: what was found weighs more than that it could be written.
pub(super) fn found(sealed: &Sealed, written: Exit) -> Exit {
    if sealed.faults.is_empty() || written != Exit::Done { written } else { Exit::Found }
}

/// Writes the head of a record, and where the rest is.
pub(super) fn show_head(context: &Context, runs: &Runs, sealed: &Sealed) -> Exit {
    let record = &sealed.record;
    let folder =
        RunId::parse(&record.run).map(|id| runs.folder(&id).display().to_string()).unwrap_or_default();
    let rest = Text::new()
        .blank()
        .line(Line::plain(format!("The record is sealed; `bayhand record {}` prints all of it.", record.run)))
        .line(Line::plain(format!("Its files: {folder}")));
    match context.write(&record::text::head(record, context.width())) {
        Exit::Done => found(sealed, context.show(&rest)),
        exit => exit,
    }
}

/// The sealed record of a run, worked out again from its journal; of a closed one it is kept in its folder as data and as
/// text. Of one that goes on nothing is kept: the next would be another. What is unlike it is said.
pub(super) fn sealed(context: &Context, runs: &Runs, id: &RunId) -> Result<Sealed, Exit> {
    let run = StoredRun::read(runs, id).map_err(|error| context.not_opened(&error))?;
    let lines = run.lines();
    let kept = Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &run.pinned };
    let record = record::proved(&kept).map_err(|findings| refused(context, id, &findings))?;
    let folder = runs.folder(id);
    let mut faults = beside::record_faults(&context.system, &folder, &record);
    if record.closed.is_some() && faults.is_empty() {
        keep(context, &folder, &record)?;
    }
    faults.extend(beside::attachment_faults(&context.system, &folder, &record::attachments(&run.events)));
    for fault in &faults {
        context.complain(fault);
    }
    Ok(Sealed { record, faults })
}

fn refused(context: &Context, id: &RunId, findings: &[Finding]) -> Exit {
    let open = |finding: &Finding| match finding {
        Finding::Open(item) => Some(format!("- {item}")),
        _ => None,
    };
    let items: Vec<String> = findings.iter().filter_map(open).collect();
    if items.is_empty() {
        let why: Vec<String> = findings.iter().map(ToString::to_string).collect();
        return context
            .found(&format!("the journal of run {id} did not come about as a run can: {}", why.join("\n")));
    }
    context.found(&format!("run {id} has no record yet; this is open:\n{}", items.join("\n")))
}

/// Keeps a record as data and as text. One that is there already is never written over.
fn keep(context: &Context, folder: &Path, record: &Record) -> Result<(), Exit> {
    keep_both(context, folder, [&record::to_json(record), &record::text::render(record, KEPT_WIDTH)])
}

/// The same of the two texts; those that are there already stay.
pub(super) fn keep_both(context: &Context, folder: &Path, [data, text]: [&str; 2]) -> Result<(), Exit> {
    for (name, bytes) in [(DATA, data), (TEXT, text)] {
        match context.system.disk().write_new(&folder.join(name), bytes.as_bytes()) {
            Err(error) if !matches!(error.why, Why::AlreadyThere) => return Err(context.trouble(&error)),
            _ => {}
        }
    }
    Ok(())
}
