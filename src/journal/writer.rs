//! A journal open for writing: an event is acknowledged once it is durable.

use std::path::{Path, PathBuf};

use jiff::ZonedDateTime;
use serde::Serialize;

use super::contents::{Contents, Head};
use super::holder::Held;
use super::{JOURNAL_FILE, JournalError, MOST_BYTES, line, open};
use crate::system::{DiskError, Lock, LogFile, Standing, System};

/// A journal open for writing. While it lives no other can be opened on the same folder.
#[derive(Debug)]
pub struct Journal {
    path: PathBuf,
    log: Box<dyn LogFile>,
    head: Head,
    health: Health,
    _right: Held,
}

/// Whether events can still be added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Health {
    Good,
    Stopped,
}

/// The acknowledgement of an event: it is durable under this number, with this time.
#[derive(Clone, Debug, PartialEq)]
pub struct Stamp {
    /// Its number, from 1.
    pub seq: u64,
    /// The time as written, to the millisecond: what a reader of the journal will find.
    pub time: ZonedDateTime,
}

impl Journal {
    /// Makes the journal of a folder that has none yet.
    pub fn create(system: &System, folder: &Path) -> Result<Self, JournalError> {
        let held = Held::take(system, folder)?;
        let log = open::open_log(system.disk(), folder, Standing::New)?;
        Ok(Self::of(folder, log, Head::of_nothing(), held))
    }

    /// Opens the journal of a folder to go on with it. A torn tail is moved to `journal.torn-N` and reported in the
    /// contents; with any other damage the journal is left as it is and cannot be opened.
    pub fn open(system: &System, folder: &Path) -> Result<(Self, Contents), JournalError> {
        let disk = system.disk();
        let mut log = open::open_log(disk, folder, Standing::Existing)?;
        let held = Held::take(system, folder)?;
        // What cannot be cleared away is in nobody's way.
        let _ = disk.clear_leftovers(folder);
        let mut contents = open::read(disk, folder)?;
        open::set_aside(disk, folder, &mut *log, &mut contents)?;
        // A killed process may have left a whole line that only the memory of the machine holds.
        log.sync()?;
        let journal = Self::of(folder, log, contents.head, held);
        Ok((journal, contents))
    }

    /// The same in a folder that was just made durable, with the lock under which it was.
    pub(super) fn open_held(
        system: &System,
        folder: &Path,
        lock: Lock,
    ) -> Result<(Self, Contents), JournalError> {
        let held = Held::with(lock, system, folder)?;
        let log = open::open_log(system.disk(), folder, Standing::Existing)?;
        let contents = open::read(system.disk(), folder)?;
        Ok((Self::of(folder, log, contents.head, held), contents))
    }

    /// Reads and checks a journal without opening it: nothing is changed, and another process may be writing, so that the
    /// torn tail of the contents may be a line that is just being written.
    pub fn read(system: &System, folder: &Path) -> Result<Contents, JournalError> {
        open::read(system.disk(), folder)
    }

    fn of(folder: &Path, log: Box<dyn LogFile>, head: Head, right: Held) -> Self {
        Self { path: folder.join(JOURNAL_FILE), log, head, health: Health::Good, _right: right }
    }

    /// Where the journal ends now.
    pub fn head(&self) -> Head {
        self.head
    }

    /// Adds an event and returns when it is durable.
    ///
    /// An event that cannot be written as JSON and read again is refused and changes nothing. After any other error the
    /// event is not in the journal, everything acknowledged is, and each further event is refused until the journal is
    /// opened anew: after a failed sync only a new reading shows what the disk has kept.
    pub fn append<E: Serialize>(&mut self, time: &ZonedDateTime, event: &E) -> Result<Stamp, JournalError> {
        if self.health == Health::Stopped {
            return Err(JournalError::Stopped { last: self.head.seq });
        }
        let (line, fields) =
            line::build(&self.head, time, event).map_err(|why| JournalError::NotAnEvent { why })?;
        let head = self.head.after(line.as_bytes());
        if head.length > MOST_BYTES {
            let path = self.path.clone();
            return Err(JournalError::TooLong { path });
        }
        self.write(&line).map_err(|error| self.stop(error))?;
        self.head = head;
        Ok(Stamp { seq: fields.seq, time: fields.time })
    }

    /// Nothing is written, and nothing cut, in a file that is not as this journal left it.
    fn write(&mut self, line: &str) -> Result<(), Failure> {
        let found = self.log.length().map_err(Failure::Before)?;
        if found != self.head.length {
            return Err(Failure::Foreign);
        }
        self.log.append(line.as_bytes()).and_then(|()| self.log.sync()).map_err(Failure::During)
    }

    fn stop(&mut self, failure: Failure) -> JournalError {
        self.health = Health::Stopped;
        let last = self.head.seq;
        match failure {
            Failure::Foreign => JournalError::ChangedOutside { path: self.path.clone(), last },
            Failure::Before(cause) => JournalError::NotWritten { last, may_be_there: false, cause },
            Failure::During(cause) => {
                // When this fails as well, the next opening finds the rest: a whole entry counts, half of one is set aside.
                let may_be_there = self.log.cut_to(self.head.length).is_err();
                JournalError::NotWritten { last, may_be_there, cause }
            }
        }
    }
}

/// How far a write came.
enum Failure {
    /// Nothing was written.
    Before(DiskError),
    /// Something else has written to the file; nothing was written.
    Foreign,
    /// Some or all of the line may be there.
    During(DiskError),
}
