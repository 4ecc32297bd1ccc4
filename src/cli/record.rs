//! `bayhand record`

use super::arguments;
use super::context::Context;
use super::sealed::{sealed, show};
use super::{Exit, job, job_record};
use crate::record;

/// Prints the sealed record of a run; of one that is not closed as far as it has come.
pub(super) fn record(context: &Context, command: &arguments::Record) -> Exit {
    if let Some(path) = command.run.as_deref().and_then(|name| job::path_of(context, name)) {
        return job_record::record(context, &path, command.json);
    }
    let shown = context.runs().and_then(|runs| {
        let id = context.named_run(&runs, command.run.as_deref())?;
        sealed(context, &runs, &id)
    });
    match shown {
        Ok(record) if command.json => context.write(&record::to_json(&record)),
        Ok(record) => show(context, &record),
        Err(exit) => exit,
    }
}
