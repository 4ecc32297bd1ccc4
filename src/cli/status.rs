//! `bayhand status`

use std::path::Path;

use super::arguments::Status;
use super::context::Context;
use super::status_data::status_json;
use super::{Exit, beside, job};
use crate::catalogue::Catalogue;
use crate::journal::{RunId, Runs};
use crate::record;
use crate::session::StoredRun;
use crate::terminal::{Line, Role, Text, standing};

/// Shows where a run stands.
pub(super) fn status(context: &Context, command: &Status) -> Exit {
    match shown(context, command) {
        Ok(exit) | Err(exit) => exit,
    }
}

fn shown(context: &Context, command: &Status) -> Result<Exit, Exit> {
    if let Some(path) = command.run.as_deref().and_then(|name| job::path_of(context, name)) {
        return job::status(context, &path);
    }
    let runs = context.runs()?;
    let id = meant(context, &runs, command.run.as_deref())?;
    let run = StoredRun::read(&runs, &id).map_err(|error| context.not_opened(&error))?;
    let now = context.system.now();
    let view = run.view(&now);
    let faults = faults(context, &runs.folder(&id), &run);
    if command.json {
        let json = status_json(id.as_str(), view, &faults).map_err(|error| context.trouble(&error))?;
        return Ok(context.write_json(&(json + "\n")));
    }
    let text = faults.iter().fold(Text::new(), |text, fault| {
        text.line(Line::new().with(Role::Bad, "NOT AS IT WAS: ").with(Role::Plain, fault).hang(4))
    });
    Ok(context.show(&text.then(standing(view))))
}

/// What lies beside the journal and is not what it was: a longer record, kept files.
fn faults(context: &Context, folder: &Path, run: &StoredRun) -> Vec<String> {
    let cut_off = beside::cut_off(&context.system, folder, run.events.len());
    let files = beside::attachment_faults(&context.system, folder, &record::attachments(&run.events));
    cut_off.into_iter().chain(files).map(|fault| fault.to_string()).collect()
}

/// The run that was named, else the only open one, else the only one.
fn meant(context: &Context, runs: &Runs, name: Option<&str>) -> Result<RunId, Exit> {
    if name.is_some() {
        return context.named_run(runs, name);
    }
    let catalogue = Catalogue::read(runs).map_err(|error| context.journal_error(&error))?;
    match catalogue.open().filter(|run| run.state.closed.is_none()).collect::<Vec<_>>()[..] {
        [only] => Ok(only.id.clone()),
        _ => context.named_run(runs, None),
    }
}
