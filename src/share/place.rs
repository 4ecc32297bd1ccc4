//! Files put into a folder: all of them or none, and nothing that is there is lost.

use std::path::{Path, PathBuf};

use super::bundle::Bundle;
use super::path::SharedPath;
use crate::system::{Disk, DiskError, Doing, Why};

/// Where everything that came belongs.
pub struct Places<'b> {
    /// The files.
    pub files: Vec<Placed<'b>>,
    /// The folders that are not there yet, the outer ones first.
    new_folders: Vec<PathBuf>,
}

/// A file that came, and what stands where it belongs.
pub struct Placed<'b> {
    /// Its path in the archive.
    pub path: &'b SharedPath,
    /// What came.
    pub bytes: &'b [u8],
    /// Where it belongs.
    at: PathBuf,
    /// What stands there now.
    pub standing: Standing,
}

/// What stands where a file belongs.
pub enum Standing {
    /// Nothing.
    Free,
    /// The same file.
    Same,
    /// Another one.
    Other(Vec<u8>),
}

impl Placed<'_> {
    /// What is there, where it differs.
    pub fn there(&self) -> Option<&[u8]> {
        match &self.standing {
            Standing::Other(there) => Some(there),
            Standing::Free | Standing::Same => None,
        }
    }
}

/// Looks where each file belongs. It is an error where a folder stands in the place of a file, or a file in that of a
/// folder.
pub fn place<'b>(disk: &dyn Disk, folder: &Path, bundle: &'b Bundle) -> Result<Places<'b>, DiskError> {
    let mut new_folders = Vec::new();
    for above in folders(folder, bundle) {
        match disk.list(&above) {
            Ok(_) => {}
            Err(error) if matches!(error.why, Why::NotThere) && !is_file(disk, &above) => {
                new_folders.push(above);
            }
            Err(error) => return Err(error),
        }
    }
    let one = |(path, bytes): (&'b SharedPath, &'b [u8])| {
        let at = path.names().fold(folder.to_owned(), |at, name| at.join(name));
        let standing = standing(disk, &at, bytes)?;
        Ok(Placed { path, bytes, at, standing })
    };
    Ok(Places { files: bundle.files().map(one).collect::<Result<_, _>>()?, new_folders })
}

/// The folder, and every one below it that files belong into.
fn folders(folder: &Path, bundle: &Bundle) -> Vec<PathBuf> {
    let mut all = vec![folder.to_owned()];
    for (path, _) in bundle.files() {
        let names: Vec<&str> = path.names().collect();
        let mut at = folder.to_owned();
        for name in names.iter().take(names.len().saturating_sub(1)) {
            at = at.join(name);
            if !all.contains(&at) {
                all.push(at.clone());
            }
        }
    }
    all
}

fn is_file(disk: &dyn Disk, path: &Path) -> bool {
    disk.read(path, 0).err().is_none_or(|error| matches!(error.why, Why::TooLarge { .. }))
}

fn standing(disk: &dyn Disk, at: &Path, bytes: &[u8]) -> Result<Standing, DiskError> {
    match disk.read(at, u64::MAX) {
        Ok(there) if there == bytes => Ok(Standing::Same),
        Ok(there) => Ok(Standing::Other(there)),
        Err(error) if matches!(error.why, Why::NotThere) => Ok(Standing::Free),
        Err(error) => Err(error),
    }
}

impl Places<'_> {
    /// Writes the files, and keeps beside each what it takes the place of. What cannot be finished is undone. The paths of
    /// what was kept.
    pub fn write(&self, disk: &dyn Disk) -> Result<Vec<PathBuf>, DiskError> {
        let mut kept = Vec::new();
        let all = self.keep(disk, &mut kept).and_then(|()| {
            self.new_folders.iter().try_for_each(|folder| disk.make_folder(folder))?;
            self.files.iter().try_for_each(|one| write_one(disk, one))
        });
        match all {
            Ok(()) => Ok(kept),
            Err(error) => {
                self.undo(disk, &kept);
                Err(error)
            }
        }
    }

    fn keep(&self, disk: &dyn Disk, kept: &mut Vec<PathBuf>) -> Result<(), DiskError> {
        for one in &self.files {
            if let Some(there) = one.there() {
                kept.push(beside(disk, &one.at, there)?);
            }
        }
        Ok(())
    }

    /// Puts everything back as it was, as far as the disk allows it. What was kept goes last: until then it may be the only
    /// copy.
    fn undo(&self, disk: &dyn Disk, kept: &[PathBuf]) {
        let is_back = self.files.iter().all(|one| put_back(disk, one).is_ok());
        for path in kept.iter().filter(|_| is_back) {
            let _ = disk.remove(path);
        }
        for folder in self.new_folders.iter().rev() {
            let _ = disk.remove_folder(folder);
        }
    }
}

fn write_one(disk: &dyn Disk, one: &Placed<'_>) -> Result<(), DiskError> {
    match one.standing {
        Standing::Same => Ok(()),
        Standing::Free => disk.write_new(&one.at, one.bytes),
        Standing::Other(_) => disk.replace(&one.at, one.bytes),
    }
}

/// A file is as it was before; one that was not touched yet already is.
fn put_back(disk: &dyn Disk, one: &Placed<'_>) -> Result<(), DiskError> {
    let is_written = || disk.read(&one.at, u64::MAX).is_ok_and(|now| now == one.bytes);
    match &one.standing {
        Standing::Free if is_written() => disk.remove(&one.at),
        Standing::Other(there) if is_written() => disk.replace(&one.at, there),
        _ => Ok(()),
    }
}

/// Writes what is there under a name that is free: `NAME.old`, `NAME.old2` and so on.
fn beside(disk: &dyn Disk, at: &Path, there: &[u8]) -> Result<PathBuf, DiskError> {
    /// Nobody keeps so many.
    const MOST: u32 = 1000;
    for count in 1..=MOST {
        let mut name = at.as_os_str().to_owned();
        name.push(if count == 1 { ".old".to_owned() } else { format!(".old{count}") });
        let beside = PathBuf::from(name);
        match disk.write_new(&beside, there) {
            Err(error) if matches!(error.why, Why::AlreadyThere) => {}
            other => return other.map(|()| beside),
        }
    }
    Err(DiskError::new(Doing::Write, at, Why::AlreadyThere))
}
