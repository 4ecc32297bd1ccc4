//! A job with the runs that belong to it, and what they have come to.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use jiff::ZonedDateTime;

use super::context::Context;
use super::job_found::{Found, JobOrigin, tag_of};
use super::{Exit, inputs};
use crate::catalogue::Entry;
use crate::job::record::model::JobRecord;
use crate::job::record::{KeptJob, build, record_of};
use crate::job::{self, Job};
use crate::journal::{RunId, Runs};
use crate::record::model::Record;
use crate::session::StoredRun;

/// A job with the runs that belong to it.
pub(super) struct Open {
    pub(super) job: Job,
    pub(super) folder: PathBuf,
    /// How its runs name it.
    pub(super) tag: String,
    /// The oldest first.
    pub(super) runs: Vec<StoredRun>,
    /// Where its file lies, for the runs that are begun.
    pub(super) origin: JobOrigin,
    /// All closed runs there are, at a glance.
    pub(super) closed: BTreeMap<RunId, Entry>,
    /// What may belong to it and could not be read.
    unread: Vec<String>,
    /// Other jobs of its name, in words.
    pub(super) namesakes: Vec<String>,
}

impl Open {
    /// The record of the job as it stands.
    pub(super) fn record(&self) -> JobRecord {
        self.record_with(&self.runs.iter().map(record_of).collect::<Vec<_>>())
    }

    /// The same from the records of its runs.
    pub(super) fn record_with(&self, records: &[Option<Record>]) -> JobRecord {
        let Self { job, tag, runs, unread, .. } = self;
        build(&KeptJob { job, tag, runs, records, unread })
    }
}

/// The path of a job, where this names one.
pub(super) fn path_of(context: &Context, name: &str) -> Option<PathBuf> {
    let path = Path::new(name);
    let text = context.read_text(path).ok()?;
    job::is_job(text.text()).then(|| path.to_owned())
}

/// The job of a file, or everything that is wrong with it.
pub(super) fn job_at(context: &Context, path: &Path) -> Result<Job, Exit> {
    let text = context.read(path)?;
    let found = job::read(&text, &inputs::id(path));
    if found.value.is_none() {
        context.diagnose(&found.diagnostics, &text);
    }
    found.value.ok_or(Exit::Found)
}

/// A job with its newest runs, or with none where it is to begin anew.
pub(super) fn open(
    context: &Context,
    runs: &Runs,
    path: &Path,
    now: &ZonedDateTime,
    is_new: bool,
) -> Result<Open, Exit> {
    let job = job_at(context, path)?;
    let origin = JobOrigin::of(runs, path, &context.read(path)?);
    let found = Found::read(context, runs, &job)?;
    let (tags, namesakes) = found.tags(runs, &origin);
    let mut own = found.runs;
    let is_of_job = |run: &&StoredRun| tag_of(run).is_some_and(|tag| tags.contains(tag));
    let began = |run: &&StoredRun| run.events.first().map(|(_, stamp)| stamp.at.timestamp());
    let newest = own.iter().filter(is_of_job).max_by_key(began).and_then(tag_of).map(str::to_owned);
    let tag = newest.filter(|_| !is_new).unwrap_or_else(|| new_tag(&own, &job.id, now.date()));
    own.retain(|run| tag_of(run) == Some(tag.as_str()));
    let folder = path.parent().unwrap_or(Path::new("")).to_owned();
    Ok(Open { job, folder, origin, tag, runs: own, closed: found.closed, unread: found.unread, namesakes })
}

/// One that no run has yet.
fn new_tag(runs: &[StoredRun], id: &str, day: jiff::civil::Date) -> String {
    let first = std::iter::once(format!("{day}-{id}"));
    let mut tags = first.chain((2..).map(|number: u32| format!("{day}.{number}-{id}")));
    let is_free = |tag: &String| runs.iter().all(|run| tag_of(run) != Some(tag.as_str()));
    tags.find(is_free).unwrap_or_default()
}
