//! One process works on a run; the second is told who and since when, at once.

use std::fs;

use bayhand::journal::{Journal, JournalError};

use super::kill::Writer;
use super::support::Bench;

#[test]
fn a_second_process_is_told_who_is_there_and_the_lock_ends_with_a_kill() {
    let bench = Bench::new();
    drop(bench.create());
    let mut writer = Writer::start(&bench);
    writer.first_kept();
    let Err(JournalError::InUse { holder, .. }) = bench.open() else {
        panic!("opened twice");
    };
    assert_eq!(holder.unwrap().pid, writer.id());
    let before = bench.read().unwrap().lines.len();
    assert!(before > 0, "another process may read while one writes");
    writer.kill();
    let (_journal, contents) = bench.open().unwrap();
    assert!(contents.lines.len() >= before);
}

#[test]
fn a_second_opening_in_one_process_is_refused_too() {
    let bench = Bench::with_events(1);
    let (journal, _) = bench.open().unwrap();
    let error = bench.open().unwrap_err();
    let pid = std::process::id();
    let folder = bench.path().display();
    assert_eq!(
        error.to_string(),
        format!(
            "process {pid} has been working on `{folder}` since 2026-11-21 18:30; bayhand has changed \
             nothing; go on in the window where it runs, or end it there first"
        )
    );
    drop(journal);
    assert!(bench.open().is_ok());
}

#[test]
fn the_note_is_gone_when_the_journal_is_closed() {
    let bench = Bench::new();
    let journal = bench.create();
    assert!(bench.path().join("journal.holder").exists());
    drop(journal);
    assert!(!bench.path().join("journal.holder").exists());
}

#[test]
fn a_note_that_cannot_be_read_does_not_hide_that_somebody_is_there() {
    let bench = Bench::with_events(1);
    let _journal = bench.open().unwrap();
    for note in ["", "{", "[]", r#"{"pid":-1,"since":"now"}"#] {
        fs::write(bench.path().join("journal.holder"), note).unwrap();
        let error = Journal::open(&bench.system, bench.path()).unwrap_err();
        assert!(matches!(error, JournalError::InUse { holder: None, .. }), "{error}");
    }
}

#[test]
fn a_folder_without_a_journal_is_not_opened_and_not_written_to() {
    let bench = Bench::new();
    assert!(matches!(bench.open(), Err(JournalError::Missing { .. })));
    assert_eq!(fs::read_dir(bench.path()).unwrap().count(), 0);
}

#[test]
fn a_journal_is_never_made_over_another() {
    let bench = Bench::with_events(1);
    let error = Journal::create(&bench.system, bench.path()).unwrap_err();
    assert!(matches!(error, JournalError::Exists { .. }));
    assert_eq!(bench.read().unwrap().lines.len(), 1);
}
