//! Full disks, torn writes and failed syncs: nothing acknowledged is lost, and nothing goes on as if nothing had happened.

use std::fs;

use bayhand::journal::{Journal, JournalError};
use bayhand::system::scripted::Fault;

use super::support::Bench;

/// Appends until it fails, then checks that the journal has what was acknowledged and takes no more.
fn fails_safely(bench: &Bench, journal: &mut Journal, acknowledged: &mut u64) -> JournalError {
    let error = loop {
        match bench.append(journal, "1.00 qt") {
            Ok(seq) => *acknowledged = seq,
            Err(error) => break error,
        }
    };
    let refused = bench.append(journal, "1.00 qt").unwrap_err();
    assert!(matches!(refused, JournalError::Stopped { last } if last == *acknowledged));
    assert_eq!(bench.read().unwrap().lines.len() as u64, *acknowledged);
    error
}

#[test]
fn a_disk_that_fills_up_at_any_byte_loses_nothing() {
    let bench = Bench::with_events(1);
    let mut acknowledged = 1;
    for room in (0..700).step_by(13) {
        let (mut journal, _) = bench.open().unwrap();
        bench.disk.inject(Fault::FullAfter(room));
        let error = fails_safely(&bench, &mut journal, &mut acknowledged);
        assert!(error.to_string().contains("the disk is full"), "{error}");
        assert!(error.to_string().contains("free some space"), "{error}");
        bench.disk.heal();
    }
    assert_eq!(bench.open().unwrap().1.torn, None);
}

#[test]
fn a_failed_sync_ends_the_writing_although_the_next_would_succeed() {
    let bench = Bench::with_events(2);
    let (mut journal, _) = bench.open().unwrap();
    bench.disk.inject(Fault::SyncFails);
    let mut acknowledged = 2;
    let error = fails_safely(&bench, &mut journal, &mut acknowledged);
    assert!(matches!(error, JournalError::NotWritten { last: 2, .. }));
    drop(journal);
    let (mut journal, contents) = bench.open().unwrap();
    assert_eq!(contents.lines.len(), 2);
    assert_eq!(bench.append(&mut journal, "1.00 qt").unwrap(), 3);
}

#[test]
fn what_is_acknowledged_is_there_after_a_power_cut() {
    let bench = Bench::new();
    let mut journal = bench.create();
    for number in 1..=5 {
        let acknowledged = bench.append(&mut journal, "1.00 qt").unwrap();
        assert_eq!(acknowledged, number);
        drop(journal);
        bench.disk.lose_power().unwrap();
        let (next, contents) = bench.open().unwrap();
        assert_eq!((contents.head.seq, contents.torn), (number, None));
        journal = next;
    }
}

#[test]
fn what_was_read_at_the_opening_is_there_after_a_power_cut() {
    // A line that a killed process had written and not synced.
    let whole = Bench::with_events(3).bytes();
    let bench = Bench::new();
    bench.put(&whole);
    let (journal, contents) = bench.open().unwrap();
    drop(journal);
    bench.disk.lose_power().unwrap();
    assert_eq!(bench.read().unwrap().head, contents.head);
}

#[test]
fn a_torn_write_is_cut_off_at_once() {
    let bench = Bench::with_events(2);
    for keep in [0, 1, 50, usize::MAX] {
        let (mut journal, _) = bench.open().unwrap();
        bench.disk.inject(Fault::TornWrite(keep));
        fails_safely(&bench, &mut journal, &mut 2);
    }
    assert_eq!(bench.open().unwrap().1.torn, None);
}

#[test]
fn a_torn_write_that_cannot_be_cut_is_set_aside_at_the_next_opening() {
    let bench = Bench::with_events(2);
    let (mut journal, _) = bench.open().unwrap();
    bench.disk.inject(Fault::TornWrite(50));
    bench.disk.inject(Fault::CutFails);
    bench.append(&mut journal, "1.00 qt").unwrap_err();
    drop(journal);
    assert!(matches!(bench.open(), Err(JournalError::Disk(_))));
    bench.disk.heal();
    let (_journal, contents) = bench.open().unwrap();
    assert_eq!(contents.lines.len(), 2);
    assert_eq!(contents.torn.unwrap().bytes.len(), 50);
}

#[test]
fn a_full_disk_leaves_a_torn_tail_where_it_is() {
    let bench = Bench::with_events(2);
    let cut = bench.bytes().split_last().unwrap().1.to_vec();
    bench.put(&cut);
    bench.disk.inject(Fault::FullAfter(100));
    assert!(matches!(bench.open(), Err(JournalError::Disk(_))));
    assert_eq!(bench.bytes(), cut);
}

#[test]
fn a_file_that_somebody_else_wrote_to_is_not_written_to() {
    let bench = Bench::with_events(2);
    let (mut journal, _) = bench.open().unwrap();
    let foreign = [bench.bytes(), b"a note\n".to_vec()].concat();
    bench.put(&foreign);
    let error = bench.append(&mut journal, "1.00 qt").unwrap_err();
    assert!(matches!(error, JournalError::ChangedOutside { last: 2, .. }));
    assert_eq!(bench.bytes(), foreign);
}

#[test]
#[cfg(unix)]
fn a_file_that_was_replaced_or_removed_is_not_written_to() {
    for replaced in [true, false] {
        let bench = Bench::with_events(2);
        let (mut journal, _) = bench.open().unwrap();
        let bytes = bench.bytes();
        fs::rename(bench.file(), bench.path().join("moved")).unwrap();
        if replaced {
            bench.put(&bytes);
        }
        let error = bench.append(&mut journal, "1.00 qt").unwrap_err();
        assert!(error.to_string().contains("another file stands under its name"), "{error}");
        assert_eq!(fs::read(bench.path().join("moved")).unwrap(), bytes);
    }
}

#[test]
fn an_event_that_cannot_be_read_again_is_refused_and_harms_nothing() {
    let bench = Bench::with_events(1);
    let (mut journal, _) = bench.open().unwrap();
    let mut deep = serde_json::json!(1);
    for _ in 0..200 {
        deep = serde_json::json!([deep]);
    }
    let error = journal.append(&bench.system.now(), &deep).unwrap_err();
    assert!(matches!(error, JournalError::NotAnEvent { .. }), "{error}");
    assert_eq!(bench.append(&mut journal, "1.00 qt").unwrap(), 2);
}
