//! `bayhand record`

use super::arguments;
use super::context::Context;
use super::sealed::{found, sealed, show};
use super::{Exit, job, job_record, redact};
use crate::record;

/// Prints the sealed record of a run or of a job; of one that is not closed as far as it has come.
pub(super) fn record(context: &Context, command: &arguments::Record) -> Exit {
    if let Some(path) = command.run.as_deref().and_then(|name| job::path_of(context, name)) {
        return job_record::record(context, &path, command.json);
    }
    let shown = context.runs().and_then(|runs| {
        let id = context.named_run(&runs, command.run.as_deref())?;
        sealed(context, &runs, &id)
    });
    match (shown, &command.to) {
        (Ok(sealed), Some(file)) => found(&sealed, redact::write(context, &sealed.record, command, file)),
        (Ok(sealed), None) if command.json => found(&sealed, context.write(&record::to_json(&sealed.record))),
        (Ok(sealed), None) => show(context, &sealed),
        (Err(exit), _) => exit,
    }
}
