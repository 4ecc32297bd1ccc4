//! `bayhand run`: a job, a procedure, or a run that is gone on with.

use std::path::Path;

use super::arguments::Run;
use super::context::Context;
use super::{Exit, job, library_files, running};
use crate::journal::{RunId, Runs};
use crate::session::StoredRun;

/// Runs a job, a procedure, or goes on with a run.
pub(super) fn run(context: &Context, command: &Run) -> Exit {
    let inside = library_files::find(Path::new(&command.what));
    let named = inside.filter(|_| !is_a_run(context, &command.what));
    let command = &Run {
        what: named.map_or_else(|| command.what.clone(), |text| text.name().to_owned()),
        ..command.clone()
    };
    match job::path_of(context, &command.what) {
        Some(path) => job::run(context, command, &path).unwrap_or_else(|exit| exit),
        None => running::run(context, command),
    }
}

fn is_a_run(context: &Context, name: &str) -> bool {
    let read = |runs: Runs| StoredRun::read(&runs, &RunId::parse(name).ok()?).ok();
    context.runs().ok().and_then(read).is_some()
}
