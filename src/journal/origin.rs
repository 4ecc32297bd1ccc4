//! Where a run began on this machine: two files of one name are told apart by it, and a copied run from its original.

use std::path::Path;

use serde::{Deserialize, Serialize};

use super::Runs;
use super::{MOST_BYTES, RunId};
use crate::source::SourceText;

const ORIGIN_FILE: &str = "origin.toml";
/// Far beyond the paths that it holds.
const MOST_OF_ORIGIN: u64 = 1 << 20;

/// Where the files of a run lay when it began. It is no part of the record: it says something of this machine only, and a
/// run without it is told by its text alone.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Origin {
    /// The folder of the run.
    pub folder: String,
    /// The file of the procedure.
    pub procedure: String,
    /// The file of the job that it belongs to.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub job: Option<String>,
    /// SHA-256 of the text of that job, in hexadecimal.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub job_sha256: Option<String>,
}

/// A procedure as it is named now, to be held against the runs of that name.
#[derive(Clone, Copy, Debug)]
pub struct Named<'a> {
    /// Its file's name without the ending.
    pub name: &'a str,
    /// Its file, as [`Runs::place`] gives it.
    pub place: &'a str,
    /// Its text.
    pub text: &'a SourceText,
}

impl Runs {
    /// The one path of a file: whole, links followed. Of one that is no file (a procedure inside the program), its name.
    pub fn place(&self, path: &Path) -> String {
        let place = self.system().disk().place(path);
        place.unwrap_or_else(|_| path.to_path_buf()).to_string_lossy().into_owned()
    }

    /// Where a run began; none where nothing says so.
    pub fn origin(&self, id: &RunId) -> Option<Origin> {
        let path = self.folder(id).join(ORIGIN_FILE);
        toml::from_str(&self.system().disk().read_text(&path, MOST_OF_ORIGIN).ok()?).ok()
    }

    /// Keeps where a run begins. Where that cannot be written, or the machine stops before it is durable, the run is told by
    /// its text.
    pub fn keep_origin(&self, id: &RunId, origin: Origin) {
        let folder = self.place(&self.folder(id));
        if let Ok(text) = toml::to_string(&Origin { folder, ..origin }) {
            let _ = self.system().disk().leave_note(&self.folder(id).join(ORIGIN_FILE), text.as_bytes());
        }
    }

    /// Whether a run is one of this procedure: begun from its file, or with its text. Of one that says neither, nobody
    /// can rule it out.
    pub fn is_of(&self, id: &RunId, named: Named<'_>) -> bool {
        let pinned = self.pinned(id).ok();
        let origin = self.origin(id);
        let is_place = origin.as_ref().is_some_and(|origin| origin.procedure == named.place);
        let is_text = pinned.as_ref().is_some_and(|pinned| pinned.procedure == named.text.text());
        is_place || is_text || (origin.is_none() && pinned.is_none())
    }

    /// Where the original of a run lies, of one that was copied together with the folder around it: another folder, which
    /// is still there and begins as this one does.
    pub fn original_elsewhere(&self, id: &RunId) -> Option<String> {
        let elsewhere = self.origin(id)?.folder;
        let first = |folder: &Path| {
            let text = self.system().disk().read_text(&folder.join(super::JOURNAL_FILE), MOST_BYTES).ok()?;
            text.lines().next().map(str::to_owned)
        };
        let is_other = self.place(&self.folder(id)) != elsewhere;
        let theirs = is_other.then(|| first(Path::new(&elsewhere))).flatten()?;
        (Some(theirs) == first(&self.folder(id))).then_some(elsewhere)
    }
}
