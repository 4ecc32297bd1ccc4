//! Reading and opening the file of a journal; a torn tail is kept before it is cut off.

use std::path::{Path, PathBuf};

use super::chain;
use super::contents::{Contents, Torn};
use super::{Flaw, JOURNAL_FILE, JournalError, MOST_BYTES};
use crate::system::{Disk, DiskError, LogFile, Standing, Why};

/// Reads and checks the journal in a folder; changes nothing.
pub(super) fn read(disk: &dyn Disk, folder: &Path) -> Result<Contents, JournalError> {
    let path = folder.join(JOURNAL_FILE);
    let bytes = disk.read(&path, MOST_BYTES).map_err(|error| or_missing(error, folder))?;
    chain::check(bytes).map_err(|flaw| match flaw {
        Flaw::Format(found) => JournalError::UnknownFormat { path, found },
        Flaw::Line(line, damage) => JournalError::Damaged { path, line, damage },
    })
}

pub(super) fn open_log(
    disk: &dyn Disk,
    folder: &Path,
    standing: Standing,
) -> Result<Box<dyn LogFile>, JournalError> {
    disk.open_log(&folder.join(JOURNAL_FILE), standing).map_err(|error| or_missing(error, folder))
}

/// A journal that is not there, or already there, is not a matter of the disk.
fn or_missing(error: DiskError, folder: &Path) -> JournalError {
    let folder = folder.to_path_buf();
    match error.why {
        Why::NotThere => JournalError::Missing { folder },
        Why::AlreadyThere => JournalError::Exists { folder },
        _ => JournalError::Disk(error),
    }
}

/// Moves a torn tail to a file of its own and cuts it off the journal. The copy is durable before anything is cut.
pub(super) fn set_aside(
    disk: &dyn Disk,
    folder: &Path,
    log: &mut dyn LogFile,
    contents: &mut Contents,
) -> Result<(), JournalError> {
    if let Some(torn) = &mut contents.torn {
        torn.kept_in = Some(keep(disk, folder, torn)?);
        log.cut_to(contents.head.length)?;
    }
    Ok(())
}

/// Under the first free name.
fn keep(disk: &dyn Disk, folder: &Path, torn: &Torn) -> Result<PathBuf, JournalError> {
    let mut number = 1_u32;
    loop {
        let path = folder.join(format!("journal.torn-{number}"));
        match disk.write_new(&path, &torn.bytes) {
            Err(error) if matches!(error.why, Why::AlreadyThere) && number < u32::MAX => number += 1,
            Err(error) => return Err(error.into()),
            Ok(()) => return Ok(path),
        }
    }
}
