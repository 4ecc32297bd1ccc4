//! `bayhand status`

use super::arguments::Status;
use super::context::Context;
use super::status_data::status_json;
use super::{Exit, job};
use crate::journal::{RunId, Runs};
use crate::session::StoredRun;
use crate::terminal::standing;

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
    if command.json {
        let json = status_json(id.as_str(), view).map_err(|error| context.trouble(&error))?;
        return Ok(context.write(&(json + "\n")));
    }
    Ok(context.show(&standing(view)))
}

/// The run that was named, else the only open one, else the only one.
fn meant(context: &Context, runs: &Runs, name: Option<&str>) -> Result<RunId, Exit> {
    if name.is_some() {
        return context.named_run(runs, name);
    }
    let listing = runs.list().map_err(|error| context.journal_error(&error))?;
    let open = |(id, contents)| {
        let run = StoredRun::of(runs, &id, contents).ok()?;
        run.state.closed.is_none().then_some(id)
    };
    match listing.runs.into_iter().filter_map(open).collect::<Vec<_>>()[..] {
        [ref only] => Ok(only.clone()),
        _ => context.named_run(runs, None),
    }
}
