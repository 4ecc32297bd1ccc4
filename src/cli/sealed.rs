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
    is_kept: bool,
}

impl Sealed {
    /// How the end of a run ends: its record has to lie beside its journal.
    pub(super) fn at_close(&self, shown: Exit) -> Exit {
        if self.is_kept || shown != Exit::Done { shown } else { Exit::Trouble }
    }
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
/// text. Of one that goes on nothing is kept: the next would be another. What is unlike it is said, and so is that it could
/// not be kept: in a folder that may only be read it is made and shown all the same.
pub(super) fn sealed(context: &Context, runs: &Runs, id: &RunId) -> Result<Sealed, Exit> {
    let run = StoredRun::read(runs, id).map_err(|error| context.not_opened(&error))?;
    let lines = run.lines();
    let kept = Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &run.pinned };
    let record = record::proved(&kept).map_err(|findings| refused(context, id, &findings))?;
    let folder = runs.folder(id);
    let mut faults = beside::record_faults(&context.system, &folder, &record);
    let is_to_be_kept = record.closed.is_some() && faults.is_empty();
    let is_kept = !is_to_be_kept || keep(context, &folder, &record);
    faults.extend(beside::attachment_faults(&context.system, &folder, &record::attachments(&run.events)));
    for fault in &faults {
        context.complain(fault);
    }
    Ok(Sealed { record, faults, is_kept })
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

/// Keeps a record as data and as text; whether it is kept. One that is there already is never written over.
fn keep(context: &Context, folder: &Path, record: &Record) -> bool {
    keep_both(context, folder, [&record::to_json(record), &record::text::render(record, KEPT_WIDTH)])
}

/// The same of the two texts; those that are there already stay.
pub(super) fn keep_both(context: &Context, folder: &Path, [data, text]: [&str; 2]) -> bool {
    let disk = context.system.disk();
    let kept = [(DATA, data), (TEXT, text)].into_iter().try_for_each(|(name, bytes)| {
        let path = folder.join(name);
        // In a folder that may only be read a file that is there already is not the reason why none can be made.
        match disk.length(&path).or_else(|_| disk.write_new(&path, bytes.as_bytes()).map(|()| 0)) {
            Err(error) if !matches!(error.why, Why::AlreadyThere) => Err(error),
            _ => Ok(()),
        }
    });
    let said = kept.map_err(|error| context.not_kept(&error));
    said.is_ok()
}
