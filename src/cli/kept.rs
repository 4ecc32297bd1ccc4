//! Procedures that others link to, kept while a folder is checked: each is read once, as long as not too many are.

use std::collections::HashMap;
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::context::Context;
use super::inputs::id;
use super::pictures::is_there;
use crate::procedure::{Library, NotFound, ReadText};
use crate::source::SourceText;

/// How much text is kept before what was not asked for lately is let go, in bytes. What is made of a text takes many times
/// its size.
const MOST: usize = 1 << 20;

/// Texts that were read, by their plain paths.
#[derive(Default)]
pub(super) struct Kept {
    texts: Mutex<Generations>,
}

/// What is young is asked for first; what is old has the time until the young are old to be asked for again.
#[derive(Default)]
struct Generations {
    young: HashMap<PathBuf, Arc<ReadText>>,
    old: HashMap<PathBuf, Arc<ReadText>>,
    /// The bytes of the young.
    size: usize,
}

impl Kept {
    fn texts(&self) -> MutexGuard<'_, Generations> {
        self.texts.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The text at a plain path, where it is kept.
    pub(super) fn get(&self, path: &Path) -> Option<Arc<ReadText>> {
        let mut texts = self.texts();
        if let Some(read) = texts.young.get(path) {
            return Some(Arc::clone(read));
        }
        let read = texts.old.remove(path)?;
        texts.keep(path, &read);
        Some(read)
    }

    fn keep(&self, path: &Path, read: &Arc<ReadText>) {
        self.texts().keep(path, read);
    }
}

impl Generations {
    fn keep(&mut self, path: &Path, read: &Arc<ReadText>) {
        if self.size > MOST {
            self.old = std::mem::take(&mut self.young);
            self.size = 0;
        }
        self.size += read.text().text().len();
        self.young.insert(path.to_owned(), Arc::clone(read));
    }
}

/// The files beside a procedure, kept once they were read.
pub(super) struct KeptBeside<'c> {
    pub(super) context: &'c Context,
    pub(super) kept: &'c Kept,
    /// The folder of the procedure.
    pub(super) folder: &'c Path,
}

impl Library for KeptBeside<'_> {
    fn find(&self, address: &str) -> Result<SourceText, NotFound> {
        let text = self.context.read_text(&plain(&self.folder.join(address)));
        text.map_err(|error| NotFound { why: error.to_string() })
    }

    fn picture(&self, address: &str) -> Result<(), NotFound> {
        is_there(self.context, &plain(&self.folder.join(address)))
    }

    fn read(&self, address: &str) -> Result<Arc<ReadText>, NotFound> {
        let path = plain(&self.folder.join(address));
        if let Some(read) = self.kept.get(&path) {
            return Ok(read);
        }
        let read = Arc::new(ReadText::of(self.find(address)?, &id(&path)));
        self.kept.keep(&path, &read);
        Ok(read)
    }
}

/// A path without the folders that it only goes through and leaves again: `lines/../tap.md` is `tap.md`.
pub(super) fn plain(path: &Path) -> PathBuf {
    let mut plain = PathBuf::new();
    for part in path.components() {
        let leaves = part == Component::ParentDir
            && matches!(plain.components().next_back(), Some(Component::Normal(_)));
        match part {
            Component::CurDir => {}
            _ if leaves => drop(plain.pop()),
            other => plain.push(other),
        }
    }
    plain
}
