//! `bayhand sheet`

use std::path::Path;

use super::arguments::Sheet;
use super::context::Context;
use super::{Exit, inputs, pictures};
use crate::journal::RunId;
use crate::print::{Page, html};
use crate::record::{self, Kept};
use crate::session::StoredRun;
use crate::terminal::working_copy;

/// Prints a working copy: of a procedure, or of a run with what is done filled in.
pub(super) fn sheet(context: &Context, command: &Sheet) -> Exit {
    match page(context, command) {
        Ok(page) => context.write_to(command.to.as_deref(), &html(&page)),
        Err(exit) => exit,
    }
}

fn page(context: &Context, command: &Sheet) -> Result<Page, Exit> {
    if let Some(page) = of_run(context, &command.what)? {
        return Ok(page);
    }
    let (book, _) = inputs::book(context, &command.what, command.vehicle.as_deref())?;
    let mut page = working_copy(&book.procedure, book.sheet.as_ref(), None);
    pictures::put_on(context, &mut page, &command.what);
    Ok(page)
}

/// The working copy of a run; nothing where no run has this name.
fn of_run(context: &Context, name: &Path) -> Result<Option<Page>, Exit> {
    let Some(id) = name.to_str().and_then(|name| RunId::parse(name).ok()) else {
        return Ok(None);
    };
    let runs = context.runs()?;
    let folders = runs.folders().map_err(|error| context.journal_error(&error))?;
    if !folders.iter().any(|folder| folder == id.as_str()) {
        return Ok(None);
    }
    let run = StoredRun::read(&runs, &id).map_err(|error| context.not_opened(&error))?;
    let lines = run.lines();
    let kept = Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &run.pinned };
    let done = record::build(&kept)
        .map_err(|_| context.found(&format!("run {id} is closed although something is open in it")))?;
    Ok(Some(working_copy(&run.book.procedure, run.book.sheet.as_ref(), Some(&done))))
}
