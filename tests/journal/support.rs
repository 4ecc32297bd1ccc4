//! A run folder that vanishes with the test, and a system with a clock and a disk that do as they are told.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use bayhand::journal::{Contents, Journal, JournalError};
use bayhand::system::scripted::{FaultyDisk, ScriptedClock};
use bayhand::system::{Environment, System};
use jiff::{SignedDuration, ZonedDateTime};
use serde_json::json;
use tempfile::TempDir;

pub struct Bench {
    pub folder: TempDir,
    pub clock: Arc<ScriptedClock>,
    pub disk: FaultyDisk,
    pub system: System,
}

pub fn evening() -> ZonedDateTime {
    "2026-11-21T18:30:05.123+01:00[Europe/Berlin]".parse().unwrap()
}

impl Bench {
    pub fn new() -> Self {
        let clock = Arc::new(ScriptedClock::ticking(evening(), SignedDuration::from_millis(1_250)));
        let disk = FaultyDisk::default();
        let system = System::new(clock.clone(), Arc::new(disk.clone()), Environment::default());
        Self { folder: TempDir::new().unwrap(), clock, disk, system }
    }

    pub fn path(&self) -> &Path {
        self.folder.path()
    }

    pub fn file(&self) -> PathBuf {
        self.path().join("journal.jsonl")
    }

    pub fn create(&self) -> Journal {
        Journal::create(&self.system, self.path()).unwrap()
    }

    pub fn open(&self) -> Result<(Journal, Contents), JournalError> {
        patiently(|| Journal::open(&self.system, self.path()))
    }

    pub fn read(&self) -> Result<Contents, JournalError> {
        Journal::read(&self.system, self.path())
    }

    pub fn append(&self, journal: &mut Journal, reading: &str) -> Result<u64, JournalError> {
        let event = json!({"kind": "reading", "name": "caught", "text": reading});
        journal.append(&self.system.now(), &event).map(|stamp| stamp.seq)
    }

    /// A closed journal with so many events.
    pub fn with_events(count: u64) -> Self {
        let bench = Self::new();
        let mut journal = bench.create();
        for number in 1..=count {
            let seq = bench.append(&mut journal, &format!("{number}.5 qt")).unwrap();
            assert_eq!(seq, number);
        }
        bench
    }

    pub fn bytes(&self) -> Vec<u8> {
        fs::read(self.file()).unwrap()
    }

    pub fn put(&self, bytes: &[u8]) {
        fs::write(self.file(), bytes).unwrap();
    }
}

/// The line that an error names, if it names one.
pub fn line_of(error: &JournalError) -> Option<u64> {
    match error {
        JournalError::Damaged { line, .. } => Some(*line),
        JournalError::UnknownFormat { .. } => Some(1),
        _ => None,
    }
}

/// A lock that was just given back can stay taken for a moment: a process that another test is starting holds a copy of
/// every open file until it becomes the program. Whoever really holds a run leaves a note, so only a lock without one is
/// waited for.
pub fn patiently<T>(mut open: impl FnMut() -> Result<T, JournalError>) -> Result<T, JournalError> {
    for _ in 0..200 {
        match open() {
            Err(JournalError::InUse { holder: None, .. }) => {
                std::thread::sleep(std::time::Duration::from_millis(10));
            }
            other => return other,
        }
    }
    open()
}
