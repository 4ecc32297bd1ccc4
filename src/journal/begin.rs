//! Beginning a run: its folder appears whole and with its first entry, or not at all.
//!
//! It is made under another name and gets its own by one renaming. Whatever ends the process before that leaves a folder
//! that no listing knows; the next start clears it away.

use std::path::{Path, PathBuf};
use std::time::Duration;

use jiff::ZonedDateTime;
use serde::Serialize;

use super::runs::{PROCEDURE_FILE, Pinned, VEHICLE_FILE, folders_of, if_there, is_hidden, linked_file};
use super::{
    Contents, HOLDER_FILE, Head, JOURNAL_FILE, Journal, JournalError, LOCK_FILE, MOST_BYTES, RunId, Runs,
    line,
};
use crate::system::{Disk, DiskError, Lock, Why};

/// What the name of a folder begins with in which a run is being made.
const BEING_MADE: &str = ".being-made-";
/// What it begins with once it is being cleared away.
const GOING: &str = ".going-";
/// The folder of what is left of starts that earlier versions did not finish.
const ASIDE: &str = ".not-begun";
/// So often a start is tried anew that somebody cleared away, taking it for dead.
const TRIES: u32 = 3;

/// What was left of a start that ended before its first entry was kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotBegun {
    /// The run that it would have become.
    pub run: RunId,
    /// Where it lies now.
    pub kept_in: PathBuf,
}

impl Runs {
    /// Begins a run of the procedure with this name, now, with these texts. Its first event is told its name.
    pub fn begin<E: Serialize, F: From<JournalError>>(
        &self,
        procedure: &str,
        now: &ZonedDateTime,
        pinned: &Pinned,
        first: impl Fn(&RunId) -> Result<E, F>,
    ) -> Result<(RunId, Journal, Contents), F> {
        let mut tries = 1;
        let (id, lock) = loop {
            let making = self.being_made().map_err(JournalError::from)?;
            let made = self.made(&making, (procedure, now), pinned, &first);
            match made {
                Made::Begun(id, lock) => break (id, lock),
                Made::Gone if tries < TRIES => tries += 1,
                Made::Gone => return Err(JournalError::Missing { folder: making }.into()),
                Made::Failed(error) => {
                    // What cannot be removed is cleared away by the next start.
                    let _ = self.system().disk().remove_with_files(&making);
                    return Err(error);
                }
            }
        };
        // The lock goes with the folder: nobody comes between its making and the first question.
        let (journal, contents) = Journal::open_held(self.system(), &self.folder(&id), lock)?;
        Ok((id, journal, contents))
    }

    /// A folder of its own for a run that is being made.
    fn being_made(&self) -> Result<PathBuf, DiskError> {
        let disk = self.system().disk();
        disk.make_folder(self.all())?;
        let process = self.system().process_id();
        let mut nth = 1_u32;
        loop {
            let folder = self.all().join(format!("{BEING_MADE}{process}-{nth}"));
            match disk.claim_folder(&folder) {
                Err(error) if matches!(error.why, Why::AlreadyThere) && nth < u32::MAX => nth += 1,
                outcome => return outcome.map(|()| folder),
            }
        }
    }

    fn made<E: Serialize, F: From<JournalError>>(
        &self,
        making: &Path,
        (procedure, now): (&str, &ZonedDateTime),
        pinned: &Pinned,
        first: impl Fn(&RunId) -> Result<E, F>,
    ) -> Made<F> {
        let disk = self.system().disk();
        // Held for as long as it is made, so that nobody takes it for dead.
        let lock = match disk.try_lock(&making.join(LOCK_FILE)) {
            Ok(Some(lock)) => lock,
            Ok(None) => return Made::Gone,
            Err(error) => return Made::of(error),
        };
        if let Err(error) = texts(disk, making, pinned) {
            return Made::of(error);
        }
        for id in (1..u32::MAX).map(|nth| RunId::of(now.date(), procedure, nth)) {
            match disk.length(&self.folder(&id)) {
                Err(error) if matches!(error.why, Why::NotThere) => {}
                // The name is taken.
                Ok(_) => continue,
                Err(error) => return Made::of(error),
            }
            let line = match first(&id).and_then(|event| first_line(now, &event).map_err(F::from)) {
                Ok(line) => line,
                Err(error) => return Made::Failed(error),
            };
            let named = disk
                .put_into(&making.join(JOURNAL_FILE), line.as_bytes())
                .and_then(|()| disk.move_folder(making, &self.folder(&id)));
            match named {
                Ok(()) => return Made::Begun(id, lock),
                // Somebody was quicker with this name.
                Err(error) if matches!(error.why, Why::AlreadyThere) => {}
                Err(error) => return Made::of(error),
            }
        }
        Made::Failed(JournalError::Exists { folder: self.all().to_path_buf() }.into())
    }

    /// Clears away what starts have left that were killed, and tells of those that a listing would show. Nothing of them
    /// was ever recorded. With the folders that are left; those of runs known to be closed are not looked into.
    pub fn sweep(
        &self,
        is_closed: impl Fn(&str) -> bool,
    ) -> Result<(Vec<String>, Vec<NotBegun>), JournalError> {
        let disk = self.system().disk();
        let mut not_begun = Vec::new();
        let mut is_left = |name: &String| {
            let path = self.all().join(name);
            if name.starts_with(GOING) {
                let _ = disk.remove_with_files(&path);
            } else if let Some(rest) = name.strip_prefix(BEING_MADE) {
                clear(disk, &path, &self.all().join(format!("{GOING}{rest}")));
            } else if let Ok(run) = RunId::parse(name)
                && is_not_begun(disk, &path)
                && let Some(left) = self.set_aside(&path, run)
            {
                not_begun.push(left);
                return false;
            }
            !is_hidden(name)
        };
        let all = disk.clear_leftovers(self.all()).or_else(|_| disk.list(self.all()));
        let mut folders = folders_of(if_there(all)?.unwrap_or_default());
        folders.retain(|name| is_closed(name) || is_left(name));
        Ok((folders, not_begun))
    }

    /// Nothing that somebody may have put there is removed.
    fn set_aside(&self, folder: &Path, run: RunId) -> Option<NotBegun> {
        let disk = self.system().disk();
        let aside = self.all().join(ASIDE);
        disk.make_folder(&aside).ok()?;
        let mut nth = 1_u32;
        loop {
            let number = if nth > 1 { format!("-{nth}") } else { String::new() };
            let kept_in = aside.join(format!("{run}{number}"));
            match disk.move_folder(folder, &kept_in) {
                Err(error) if matches!(error.why, Why::AlreadyThere) && nth < u32::MAX => nth += 1,
                outcome => return outcome.ok().map(|()| NotBegun { run, kept_in }),
            }
        }
    }
}

/// What came of making a run.
enum Made<F> {
    Begun(RunId, Lock),
    /// Somebody took the folder away.
    Gone,
    Failed(F),
}

impl<F: From<JournalError>> Made<F> {
    fn of(error: DiskError) -> Self {
        if matches!(error.why, Why::NotThere) {
            Self::Gone
        } else {
            Self::Failed(JournalError::from(error).into())
        }
    }
}

fn texts(disk: &dyn Disk, folder: &Path, pinned: &Pinned) -> Result<(), DiskError> {
    disk.put_into(&folder.join(PROCEDURE_FILE), pinned.procedure.as_bytes())?;
    for (place, linked) in pinned.linked.iter().enumerate() {
        disk.put_into(&folder.join(linked_file(place)), linked.as_bytes())?;
    }
    pinned.vehicle.as_ref().map_or(Ok(()), |text| disk.put_into(&folder.join(VEHICLE_FILE), text.as_bytes()))
}

fn first_line<E: Serialize>(now: &ZonedDateTime, event: &E) -> Result<String, JournalError> {
    let line = line::build(&Head::of_nothing(), now, event);
    line.map(|(line, _)| line).map_err(|why| JournalError::NotAnEvent { why })
}

/// Removes a folder in which nobody makes a run any more. It gets another name first, so that somebody who does after all
/// finds it gone, and never half of it.
fn clear(disk: &dyn Disk, making: &Path, going: &Path) {
    if disk.remove_folder(making).is_ok() {
        return;
    }
    let lock = match disk.written_at(&making.join(LOCK_FILE)) {
        Ok(_) => disk.try_lock(&making.join(LOCK_FILE)),
        Err(_) => return,
    };
    if let Ok(Some(lock)) = lock
        && disk.move_folder(making, going).is_ok()
    {
        drop(lock);
        let _ = disk.remove_with_files(going);
    }
}

/// Whether an earlier version was killed here while it started a run: there is nothing but what a start makes, and no whole
/// entry. A journal that was emptied later than its run began is none of these: entries of it may have been acknowledged.
fn is_not_begun(disk: &dyn Disk, folder: &Path) -> bool {
    /// So soon after the lock was made a start had written its first entry.
    const AT_ONCE: Duration = Duration::from_secs(2);
    let Ok(entries) = disk.list(folder) else { return false };
    if !entries.iter().all(|entry| !entry.is_folder && is_of_a_start(&entry.name)) {
        return false;
    }
    let has = |name: &str| entries.iter().any(|entry| entry.name == name);
    let journal = folder.join(JOURNAL_FILE);
    if has(JOURNAL_FILE) {
        let written = |path: &Path| disk.written_at(path).ok();
        let apart = written(&journal).zip(written(&folder.join(LOCK_FILE))).map(|(one, other)| {
            one.duration_since(other).or_else(|_| other.duration_since(one)).unwrap_or(Duration::MAX)
        });
        let is_whole = disk.read(&journal, MOST_BYTES).map_or(true, |bytes| bytes.contains(&b'\n'));
        if is_whole || apart.is_none_or(|apart| apart > AT_ONCE) {
            return false;
        }
    }
    // Whoever makes it this moment holds the lock.
    !has(LOCK_FILE) || matches!(disk.try_lock(&folder.join(LOCK_FILE)), Ok(Some(_)))
}

fn is_of_a_start(name: &str) -> bool {
    let linked = name.strip_prefix("linked-").and_then(|rest| rest.strip_suffix(".md"));
    [PROCEDURE_FILE, VEHICLE_FILE, JOURNAL_FILE, LOCK_FILE, HOLDER_FILE].contains(&name)
        || name.starts_with(".tmp")
        || linked.is_some_and(|number| number.parse::<u32>().is_ok())
}
