//! What of the runs there are belongs to a job, and what only to another job of its name.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use super::Exit;
use super::context::Context;
use crate::catalogue::{Catalogue, Entry};
use crate::job::Job;
use crate::journal::{Digest, Origin, RunId, Runs};
use crate::session::StoredRun;
use crate::source::SourceText;

/// Where the file of a job lies, and its text.
#[derive(Clone, Debug)]
pub(super) struct JobOrigin {
    place: String,
    sha256: String,
}

impl JobOrigin {
    pub(super) fn of(runs: &Runs, path: &Path, text: &SourceText) -> Self {
        Self { place: runs.place(path), sha256: Digest::of(text.text().as_bytes()).to_string() }
    }

    /// Keeps it beside a run that was begun in the job.
    pub(super) fn keep(&self, runs: &Runs, id: &RunId, procedure: &Path) {
        let (job, job_sha256) = (Some(self.place.clone()), Some(self.sha256.clone()));
        let procedure = runs.place(procedure);
        runs.keep_origin(id, Origin { procedure, job, job_sha256, ..Origin::default() });
    }

    fn is_of(&self, origin: &Origin) -> bool {
        origin.job.as_ref() == Some(&self.place) || origin.job_sha256.as_ref() == Some(&self.sha256)
    }
}

/// The runs of all jobs of one name.
pub(super) struct Found {
    job: String,
    pub(super) runs: Vec<StoredRun>,
    pub(super) closed: BTreeMap<RunId, Entry>,
    /// What may belong to the job and could not be read, in words.
    pub(super) unread: Vec<String>,
}

impl Found {
    /// Of the closed runs those only are read that say in the index that they belong to such a job.
    pub(super) fn read(context: &Context, runs: &Runs, job: &Job) -> Result<Self, Exit> {
        let Catalogue { closed, others, broken, .. } =
            Catalogue::read(runs).map_err(|error| context.journal_error(&error))?;
        let in_job = |entry: &Entry| {
            entry.summary().is_none_or(|run| run.job.is_some_and(|tag| belongs(&tag, &job.id)))
        };
        let closed_runs = closed.iter().filter(|(_, entry)| in_job(entry));
        let closed_runs = closed_runs.map(|(id, _)| (id.clone(), StoredRun::read(runs, id)));
        let mut found =
            Self { job: job.id.clone(), runs: Vec::new(), closed: BTreeMap::new(), unread: Vec::new() };
        let mut unread: Vec<(String, String)> =
            broken.into_iter().map(|broken| (broken.name, broken.error.to_string())).collect();
        for (id, run) in closed_runs.chain(others) {
            match run {
                Ok(run) => found.runs.push(run),
                Err(error) => unread.push((id.as_str().to_owned(), error.to_string())),
            }
        }
        found.runs.retain(|run| tag_of(run).is_some_and(|tag| belongs(tag, &job.id)));
        found.runs.sort_by_key(|run| run.events.first().map(|(_, stamp)| stamp.at.timestamp()));
        let is_of = |name: &str, procedure: &str| RunId::parse(name).is_ok_and(|id| id.is_of(procedure));
        unread.retain(|(name, _)| job.procedures.iter().any(|one| is_of(name, &one.id)));
        let words = |(name, why)| format!("run {name} may belong to this job and cannot be read: {why}");
        found.unread = unread.into_iter().map(words).collect();
        found.closed = closed;
        Ok(found)
    }

    /// The tags that are of this job, and other jobs of its name in words. A tag is of the job of which a run of it was
    /// begun: from the same file, or by the same text. Where nothing says from which, nobody can rule it out.
    pub(super) fn tags(&self, runs: &Runs, own: &JobOrigin) -> (BTreeSet<String>, Vec<String>) {
        let all: BTreeSet<&str> = self.runs.iter().filter_map(tag_of).collect();
        let (mut tags, mut namesakes) = (BTreeSet::new(), Vec::new());
        for tag in all {
            let of_tag = self.runs.iter().filter(|run| tag_of(run) == Some(tag));
            let origins: Vec<Origin> = of_tag.filter_map(|run| runs.origin(&run.id)).collect();
            if origins.is_empty() || origins.iter().any(|origin| own.is_of(origin)) {
                tags.insert(tag.to_owned());
            } else {
                let place = origins.into_iter().find_map(|origin| origin.job).unwrap_or_default();
                namesakes.push(format!(
                    "The job {tag} is another one of the name `{}`: it was begun from {place}, and goes on from there.",
                    self.job
                ));
            }
        }
        (tags, namesakes)
    }
}

pub(super) fn tag_of(run: &StoredRun) -> Option<&str> {
    run.start()?.job.as_deref()
}

/// `2026-10-12-cold-stall` is a tag of `cold-stall`, and `2026-10-12.2-cold-stall` one of a second job on that day.
fn belongs(tag: &str, id: &str) -> bool {
    const DATE: usize = "2026-10-12".len();
    let rest = tag.get(DATE..).unwrap_or_default();
    rest.split_once('-')
        .is_some_and(|(number, own)| own == id && (number.is_empty() || number.starts_with('.')))
}
