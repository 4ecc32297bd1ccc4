//! The disk of the machine: its files, folders and locks.

#![expect(clippy::disallowed_methods, reason = "this is the one place that touches the disk")]

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use tempfile::NamedTempFile;

use super::at_once::at_once;
use super::disk::LEFTOVER;
use super::real_log::RealLog;
use super::{Disk, DiskError, Doing, Entry, Lock, LogFile, Standing, Why};

/// The disk of the machine.
#[derive(Clone, Copy, Debug)]
pub struct RealDisk;

impl Disk for RealDisk {
    fn read(&self, path: &Path, most: u64) -> Result<Vec<u8>, DiskError> {
        let bytes = read_at_most(path, most).map_err(|why| DiskError::new(Doing::Read, path, why))?;
        if u64::try_from(bytes.len()).is_ok_and(|length| length <= most) {
            return Ok(bytes);
        }
        Err(DiskError::new(Doing::Read, path, Why::TooLarge { most }))
    }

    fn place(&self, path: &Path) -> Result<PathBuf, DiskError> {
        fs::canonicalize(path).map_err(failed(Doing::Read, path))
    }

    fn length(&self, path: &Path) -> Result<u64, DiskError> {
        fs::metadata(path).map(|found| found.len()).map_err(failed(Doing::Read, path))
    }

    fn write_new(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError> {
        temporary_beside(path, bytes)
            .and_then(|file| file.persist_noclobber(path).map_err(|refused| refused.error))
            .and_then(|_file| sync_folder_of(path))
            .map_err(failed(Doing::Write, path))
    }

    fn replace(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError> {
        temporary_beside(path, bytes)
            .and_then(|file| file.persist(path).map_err(|refused| refused.error))
            .and_then(|_file| sync_folder_of(path))
            .map_err(failed(Doing::Write, path))
    }

    fn leave_note(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError> {
        written_beside(path, bytes)
            .and_then(|file| file.persist(path).map_err(|refused| refused.error))
            .map(drop)
            .map_err(failed(Doing::Write, path))
    }

    fn put_into(&self, path: &Path, bytes: &[u8]) -> Result<(), DiskError> {
        File::create(path)
            .and_then(|mut file| file.write_all(bytes).and_then(|()| file.sync_all()))
            .map_err(failed(Doing::Write, path))
    }

    fn remove(&self, path: &Path) -> Result<(), DiskError> {
        match fs::remove_file(path) {
            Err(error) if error.kind() != ErrorKind::NotFound => Err(failed(Doing::Remove, path)(error)),
            _ => Ok(()),
        }
    }

    fn make_folder(&self, path: &Path) -> Result<(), DiskError> {
        make_with_parents(path).map_err(failed(Doing::MakeFolder, path))
    }

    fn claim_folder(&self, path: &Path) -> Result<(), DiskError> {
        fs::create_dir(path).map_err(failed(Doing::MakeFolder, path))
    }

    fn remove_folder(&self, path: &Path) -> Result<(), DiskError> {
        fs::remove_dir(path).map_err(failed(Doing::Remove, path))
    }

    fn move_folder(&self, from: &Path, to: &Path) -> Result<(), DiskError> {
        sync_folder(from).map_err(failed(Doing::Write, from))?;
        match fs::rename(from, to) {
            Ok(()) => sync_folder_of(to).map_err(failed(Doing::Write, to)),
            Err(error) if matches!(error.kind(), ErrorKind::DirectoryNotEmpty | ErrorKind::NotADirectory) => {
                Err(DiskError::new(Doing::Write, to, Why::AlreadyThere))
            }
            Err(error) => Err(failed(Doing::Write, to)(error)),
        }
    }

    fn written_at(&self, path: &Path) -> Result<SystemTime, DiskError> {
        fs::metadata(path).and_then(|found| found.modified()).map_err(failed(Doing::Read, path))
    }

    fn list(&self, folder: &Path) -> Result<Vec<Entry>, DiskError> {
        let mut entries = fs::read_dir(folder)
            .and_then(|found| found.map(|item| item.map(|item| entry(&item))).collect())
            .map_err(failed(Doing::List, folder))?;
        let by_name: &mut Vec<Entry> = &mut entries;
        by_name.sort_by(|one, other| one.name.cmp(&other.name));
        Ok(entries)
    }

    fn open_log(&self, path: &Path, standing: Standing) -> Result<Box<dyn LogFile>, DiskError> {
        let log = RealLog::open(path, standing).map_err(failed(Doing::Append, path))?;
        if standing == Standing::New {
            sync_folder_of(path).map_err(failed(Doing::Sync, path))?;
        }
        Ok(Box::new(log))
    }

    fn try_lock(&self, path: &Path) -> Result<Option<Lock>, DiskError> {
        let file = at_once(OpenOptions::new().write(true).create(true).truncate(false))
            .open(path)
            .map_err(failed(Doing::Lock, path))?;
        match file.try_lock() {
            Ok(()) => Ok(Some(Lock::of(file))),
            Err(TryLockError::WouldBlock) => Ok(None),
            Err(TryLockError::Error(error)) => Err(failed(Doing::Lock, path)(error)),
        }
    }
}

fn failed(doing: Doing, path: &Path) -> impl Fn(io::Error) -> DiskError {
    move |error| DiskError::from_io(doing, path, error)
}

/// One byte more than asked for shows that the file is too large, however large it is.
fn read_at_most(path: &Path, most: u64) -> Result<Vec<u8>, Why> {
    // Looked at before it is opened, since opening a device may do something; and after it, since a name can come to mean
    // another thing between the two.
    only_a_file(&fs::metadata(path)?)?;
    let file = at_once(OpenOptions::new().read(true)).open(path)?;
    let found = file.metadata()?;
    only_a_file(&found)?;
    // One byte more than it has, so that its end is seen by the first read.
    let expected = usize::try_from(found.len().min(most)).unwrap_or_default().saturating_add(1);
    let mut bytes = Vec::with_capacity(expected);
    file.take(most.saturating_add(1)).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// Whatever is no file is not read: a pipe may make one wait for ever, and a device may have no end.
fn only_a_file(found: &fs::Metadata) -> Result<(), Why> {
    match (found.is_file(), found.is_dir()) {
        (true, _) => Ok(()),
        (_, true) => Err(Why::IsFolder),
        _ => Err(Why::NoFile),
    }
}

/// Readable by others as far as the person's own mask allows, as any file of his.
#[cfg(unix)]
fn temporary_in(folder: &Path) -> io::Result<NamedTempFile> {
    use std::os::unix::fs::PermissionsExt;
    let usual = fs::Permissions::from_mode(0o666);
    tempfile::Builder::new().prefix(LEFTOVER).permissions(usual).tempfile_in(folder)
}

#[cfg(not(unix))]
fn temporary_in(folder: &Path) -> io::Result<NamedTempFile> {
    tempfile::Builder::new().prefix(LEFTOVER).tempfile_in(folder)
}

fn temporary_beside(path: &Path, bytes: &[u8]) -> io::Result<NamedTempFile> {
    let file = written_beside(path, bytes)?;
    file.as_file().sync_all()?;
    Ok(file)
}

fn written_beside(path: &Path, bytes: &[u8]) -> io::Result<NamedTempFile> {
    let mut file = temporary_in(folder_of(path))?;
    file.write_all(bytes)?;
    Ok(file)
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

fn make_with_parents(path: &Path) -> io::Result<()> {
    if path.is_dir() {
        return Ok(());
    }
    if let Some(parent) = path.parent().filter(|parent| !parent.as_os_str().is_empty()) {
        make_with_parents(parent)?;
    }
    match fs::create_dir(path) {
        Err(error) if error.kind() == ErrorKind::AlreadyExists && path.is_dir() => Ok(()),
        Err(error) => Err(error),
        Ok(()) => sync_folder_of(path),
    }
}

fn entry(item: &fs::DirEntry) -> Entry {
    // What the folder itself says of its entries costs nothing more; only a link is followed.
    let own = item.file_type().ok();
    let is_link = own.is_some_and(|kind| kind.is_symlink());
    let kind = if is_link { fs::metadata(item.path()).ok().map(|found| found.file_type()) } else { own };
    Entry {
        name: item.file_name().to_string_lossy().into_owned(),
        is_folder: kind.is_some_and(|kind| kind.is_dir()),
        is_file: kind.is_some_and(|kind| kind.is_file()),
        is_link,
    }
}

/// A name is durable only when its folder is.
fn sync_folder_of(path: &Path) -> io::Result<()> {
    sync_folder(folder_of(path))
}

/// Some file systems keep names by themselves and refuse to be asked.
#[cfg(unix)]
fn sync_folder(folder: &Path) -> io::Result<()> {
    match File::open(folder)?.sync_all() {
        Err(error) if matches!(error.kind(), ErrorKind::InvalidInput | ErrorKind::Unsupported) => Ok(()),
        outcome => outcome,
    }
}

/// Elsewhere a folder cannot be opened to be synced; the file system's own log keeps names.
#[cfg(not(unix))]
fn sync_folder(_folder: &Path) -> io::Result<()> {
    Ok(())
}
