//! `bayhand record JOB`

use std::path::Path;

use super::Exit;
use super::beside::{DATA, KEPT_WIDTH, MOST};
use super::context::Context;
use super::job_runs::{Open, open};
use super::sealed::{keep_both, sealed};
use crate::job::record::model::JobRecord;
use crate::job::record::{differences, text, to_json};
use crate::journal::Runs;
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
        Ok(kept) if is_json => kept.found(context.write_json(&to_json(&kept.record))),
        Ok(kept) => kept.found(show(context, &kept.record)),
        Err(exit) => exit,
    }
}

/// Writes a record as text.
pub(super) fn show(context: &Context, record: &JobRecord) -> Exit {
    context.write(&text::render(record, context.width()))
}

/// A record of a job, and whether something was found to be unlike it.
pub(super) struct Kept {
    pub(super) record: JobRecord,
    is_unlike: bool,
}

impl Kept {
    /// How it ends: what was found weighs more than that it could be written.
    fn found(&self, written: Exit) -> Exit {
        if self.is_unlike && written == Exit::Done { Exit::Found } else { written }
    }
}

/// The record of a job whose runs were verified; of a complete one it is kept beside the runs.
pub(super) fn kept(context: &Context, runs: &Runs, open: &Open) -> Result<Kept, Exit> {
    let records: Vec<Option<Record>> =
        open.runs.iter().map(|run| Some(sealed(context, runs, &run.id).ok()?.record)).collect();
    let record = open.record_with(&records);
    for unread in &record.unread {
        context.complain(unread);
    }
    let mut is_unlike = !record.unread.is_empty();
    if record.is_complete() {
        let folder = context.data_folder()?.join(JOBS).join(&open.tag);
        let is_there =
            context.system.disk().make_folder(&folder).map_err(|error| context.not_kept(&error)).is_ok();
        let before = context.system.disk().read_text(&folder.join(DATA), MOST).ok();
        for difference in before.iter().flat_map(|before| differences(before, &record)) {
            is_unlike = true;
            context.complain(&difference);
        }
        let kept = [&*to_json(&record), &*text::render(&record, KEPT_WIDTH)];
        let _ = is_there && keep_both(context, &folder, kept);
    }
    Ok(Kept { record, is_unlike })
}
