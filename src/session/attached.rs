//! Photos and other files of a run: copied into its folder, durably, before the run hears of them.

use std::path::PathBuf;

use crate::journal::Digest;
use crate::procedure::{Name, ReadingKind};
use crate::run::{Answer, Ask, KeptFile, ParticularAnswer, Refusal, View};
use crate::source::clean;
use crate::system::{DiskError, System};

/// The folder of the files in the folder of a run.
pub(crate) const FILES_FOLDER: &str = "files";

/// The largest file that is kept: 64 MiB.
pub(crate) const LARGEST: u64 = 64 << 20;

/// Where files come from and where they are kept.
#[derive(Clone, Debug)]
pub(super) struct Attaching {
    system: System,
    /// The folder of the run.
    folder: PathBuf,
    /// What a path that is not whole begins from; empty: where the program was started.
    pub(super) from: PathBuf,
}

impl Attaching {
    pub(super) fn new(system: &System, folder: PathBuf) -> Self {
        Self { system: system.clone(), folder, from: PathBuf::new() }
    }

    /// Removes what a copy left behind that did not come to its end.
    pub(super) fn clear_leftovers(&self) {
        let _ = self.system.disk().clear_leftovers(&self.folder.join(FILES_FOLDER));
    }

    /// An answer with the file that it names in place of the path, where a file is what is asked for.
    pub(super) fn answer(&self, view: View<'_>, answer: Answer) -> Result<Answer, Refusal> {
        match answer {
            Answer::Typed { text, .. } if asks_for_file(view) => {
                Ok(Answer::Particular(ParticularAnswer::File(self.keep(&text)?)))
            }
            Answer::Correct { reading, entry, text, reason } if is_file(view, &reading) => {
                let file = self.keep(&text)?;
                Ok(Answer::Particular(ParticularAnswer::CorrectFile { reading, entry, file, reason }))
            }
            other => Ok(other),
        }
    }

    /// Copies a file into the run. Moving or changing the original later changes nothing.
    fn keep(&self, typed: &str) -> Result<KeptFile, Refusal> {
        let typed = unquoted(typed);
        let path = self.from.join(typed);
        let refused = |error: &DiskError| Refusal::NoFile {
            path: typed.to_owned(),
            why: error.why.to_string(),
            way_out: error.way_out(),
        };
        let bytes = self.system.disk().read(&path, LARGEST).map_err(|error| refused(&error))?;
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let size = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
        let sha256 = Digest::of(&bytes).to_string();
        let file = KeptFile { name: clean(&name).into_owned(), size, sha256 };
        if size > 0 {
            self.copy(&file, &bytes).map_err(|error| refused(&error))?;
        }
        Ok(file)
    }

    /// The name is made of the bytes: the same file twice is kept once, and no two get in each other's way.
    fn copy(&self, file: &KeptFile, bytes: &[u8]) -> Result<(), DiskError> {
        let folder = self.folder.join(FILES_FOLDER);
        let disk = self.system.disk();
        disk.make_folder(&folder)?;
        self.clear_leftovers();
        disk.replace(&folder.join(file.stored_as()), bytes)
    }
}

fn asks_for_file(view: View<'_>) -> bool {
    matches!(view.next().ask, Ask::Reading(name) if is_file(view, &name))
}

fn is_file(view: View<'_>, reading: &Name) -> bool {
    let reading = view.book.procedure.reading(reading);
    reading.is_some_and(|reading| matches!(reading.kind, ReadingKind::File))
}

/// A path as a file manager puts it into a terminal: with white space or quotes around it.
fn unquoted(typed: &str) -> &str {
    let typed = typed.trim();
    let inner = ['\'', '"'].iter().find_map(|quote| typed.strip_prefix(*quote)?.strip_suffix(*quote));
    inner.unwrap_or(typed)
}
