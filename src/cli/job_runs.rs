//! A job with the runs that belong to it, and what they have come to.

use std::path::{Path, PathBuf};

use jiff::ZonedDateTime;

use super::context::Context;
use super::{Exit, inputs};
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
    /// What may belong to it and could not be read.
    unread: Vec<String>,
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
    let (stored, unread) = stored(context, runs, &job)?;
    let mut own: Vec<StoredRun> =
        stored.into_iter().filter(|run| tag_of(run).is_some_and(|tag| belongs(tag, &job.id))).collect();
    let began = |run: &&StoredRun| run.events.first().map(|(_, stamp)| stamp.at.timestamp());
    let newest = own.iter().max_by_key(began).and_then(tag_of).map(str::to_owned);
    let tag = newest.filter(|_| !is_new).unwrap_or_else(|| new_tag(&own, &job.id, now.date()));
    own.retain(|run| tag_of(run) == Some(tag.as_str()));
    let folder = path.parent().unwrap_or(Path::new("")).to_owned();
    Ok(Open { job, folder, tag, runs: own, unread })
}

/// All runs that can be read, and why others cannot that may belong to the job, by their names.
fn stored(context: &Context, runs: &Runs, job: &Job) -> Result<(Vec<StoredRun>, Vec<String>), Exit> {
    let listing = runs.list().map_err(|error| context.journal_error(&error))?;
    let (mut stored, mut broken) = (Vec::new(), Vec::new());
    for (id, contents) in listing.runs {
        match StoredRun::of(runs, &id, contents) {
            Ok(run) => stored.push(run),
            Err(error) => broken.push((id.as_str().to_owned(), error.to_string())),
        }
    }
    broken.extend(listing.broken.into_iter().map(|broken| (broken.name, broken.error.to_string())));
    let is_of = |name: &str, procedure: &str| RunId::parse(name).is_ok_and(|id| id.is_of(procedure));
    broken.retain(|(name, _)| job.procedures.iter().any(|one| is_of(name, &one.id)));
    let words = |(name, why)| format!("run {name} may belong to this job and cannot be read: {why}");
    Ok((stored, broken.into_iter().map(words).collect()))
}

fn tag_of(run: &StoredRun) -> Option<&str> {
    run.start()?.job.as_deref()
}

/// `2026-10-12-cold-stall` is a tag of `cold-stall`, and `2026-10-12.2-cold-stall` one of a second job on that day.
fn belongs(tag: &str, id: &str) -> bool {
    const DATE: usize = "2026-10-12".len();
    let rest = tag.get(DATE..).unwrap_or_default();
    rest.split_once('-')
        .is_some_and(|(number, own)| own == id && (number.is_empty() || number.starts_with('.')))
}

/// One that no run has yet.
fn new_tag(runs: &[StoredRun], id: &str, day: jiff::civil::Date) -> String {
    let first = std::iter::once(format!("{day}-{id}"));
    let mut tags = first.chain((2..).map(|number: u32| format!("{day}.{number}-{id}")));
    let is_free = |tag: &String| runs.iter().all(|run| tag_of(run) != Some(tag.as_str()));
    tags.find(is_free).unwrap_or_default()
}
