//! `bayhand record JOB`

use std::path::Path;

use super::Exit;
use super::context::Context;
use super::job_runs::{Open, open};
use super::sealed::{DATA, KEPT_WIDTH, MOST, keep, sealed};
use crate::job::record::model::JobRecord;
use crate::job::record::{differences, text, to_json};
use crate::journal::{RunId, Runs};
use crate::record;
use crate::record::model::Record;

/// The folder of the records of jobs, beside that of the runs.
const JOBS: &str = "jobs";

/// Prints the sealed record of a job; of one that is not finished as far as it has come.
pub(super) fn record(context: &Context, path: &Path, is_json: bool) -> Exit {
    let made = context.runs().and_then(|runs| {
        let open = open(context, &runs, path, &context.system.now(), false)?;
        kept(context, &runs, &open)
    });
    match made {
        Ok(record) if is_json => context.write(&to_json(&record)),
        Ok(record) => show(context, &record),
        Err(exit) => exit,
    }
}

/// Writes a record as text.
pub(super) fn show(context: &Context, record: &JobRecord) -> Exit {
    context.write(&text::render(record, context.width()))
}

/// The record of a job whose runs were verified; of a complete one it is kept beside the runs.
pub(super) fn kept(context: &Context, runs: &Runs, open: &Open) -> Result<JobRecord, Exit> {
    let records: Vec<Option<Record>> = open.runs.iter().map(|run| verified(context, runs, &run.id)).collect();
    let record = open.record_with(&records);
    for unread in &record.unread {
        context.complain(unread);
    }
    if record.is_complete() {
        let folder = context.data_folder()?.join(JOBS).join(&open.tag);
        context.system.disk().make_folder(&folder).map_err(|error| context.trouble(&error))?;
        let before = context.system.disk().read_text(&folder.join(DATA), MOST).ok();
        for difference in before.iter().flat_map(|before| differences(before, &record)) {
            context.complain(&difference);
        }
        let kept = [&*to_json(&record), &*text::render(&record, KEPT_WIDTH)];
        keep(context, &folder, kept, "the journal of each run")?;
    }
    Ok(record)
}

/// What the journal of a run gives, held against the record that was kept of it, and everything in that worked out again;
/// none where it has no record, which that of the job says.
fn verified(context: &Context, runs: &Runs, id: &RunId) -> Option<Record> {
    let own = sealed(context, runs, id).ok()?;
    for finding in record::verify(&record::to_json(&own)).err().iter().flatten() {
        context.complain(&format!("run {id}: {finding}"));
    }
    Some(own)
}
