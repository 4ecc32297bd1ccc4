//! `bayhand record`

use super::arguments::{self, RecordForm};
use super::beside::KEPT_WIDTH;
use super::context::Context;
use super::sealed::{Sealed, found, sealed};
use super::{Exit, job, job_record, redact};
use crate::{print, record};

/// Prints the sealed record of a run or of a job; of one that is not closed as far as it has come.
pub(super) fn record(context: &Context, command: &arguments::Record) -> Exit {
    if command.form.schema {
        return context.write_to(command.to.as_deref(), record::SCHEMA);
    }
    if let Some(path) = command.run.as_deref().and_then(|name| job::path_of(context, name)) {
        return job_record::record(context, &path, command.form.json);
    }
    let made = context.runs().and_then(|runs| {
        let id = context.named_run(&runs, command.run.as_deref())?;
        sealed(context, &runs, &id)
    });
    match (made, &command.to) {
        (Ok(made), Some(file)) if !command.redact.is_empty() => {
            found(&made, redact::write(context, &made.record, command, file))
        }
        (Ok(made), to) => found(&made, context.write_to(to.as_deref(), &formed(context, command, &made))),
        (Err(exit), _) => exit,
    }
}

/// The record in the form that was asked for.
fn formed(context: &Context, command: &arguments::Record, made: &Sealed) -> String {
    let record = &made.record;
    let page = || record::report::page(record);
    match &command.form {
        RecordForm { json: true, .. } => record::to_json(record),
        RecordForm { html: true, .. } => print::html(&page()),
        RecordForm { markdown: true, .. } => print::markdown(&page()),
        RecordForm { csv: true, .. } => record::to_csv(record),
        _ if command.to.is_some() => record::text::render(record, KEPT_WIDTH),
        _ => record::text::render(record, context.width()),
    }
}
