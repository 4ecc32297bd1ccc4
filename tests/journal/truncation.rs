//! A journal cut at any byte reads as the events that are whole, and the rest is reported and kept.

use std::fs;

use super::support::Bench;

#[test]
fn a_cut_at_each_byte_leaves_the_right_prefix() {
    let whole = Bench::with_events(4).bytes();
    for cut in 0..=whole.len() {
        let bench = Bench::new();
        bench.put(&whole[..cut]);
        let contents = bench.read().unwrap();
        let ends = whole[..cut].split(|&byte| byte == b'\n').count() - 1;
        let last_end = whole[..cut].iter().rposition(|&byte| byte == b'\n').map_or(0, |at| at + 1);
        assert_eq!(contents.lines.len(), ends, "cut at {cut}");
        assert_eq!(contents.head.length, last_end as u64, "cut at {cut}");
        let torn = contents.torn.map(|torn| torn.bytes).unwrap_or_default();
        assert_eq!(torn, whole[last_end..cut], "cut at {cut}");
    }
}

#[test]
fn opening_moves_the_torn_tail_aside_and_goes_on() {
    let bench = Bench::with_events(3);
    let whole = bench.bytes();
    bench.put(&whole[..whole.len() - 7]);
    let (mut journal, contents) = bench.open().unwrap();
    let torn = contents.torn.unwrap();
    let kept = torn.kept_in.unwrap();
    assert_eq!(kept, bench.path().join("journal.torn-1"));
    assert_eq!(fs::read(&kept).unwrap(), torn.bytes);
    assert_eq!(torn.line, 3);
    assert_eq!(bench.append(&mut journal, "3 qt").unwrap(), 3);
    drop(journal);
    let again = bench.read().unwrap();
    assert_eq!((again.lines.len(), &again.torn), (3, &None));
    assert_eq!(again.typed::<serde_json::Value>(&again.lines[2]).unwrap().event["text"], "3 qt");
}

#[test]
fn each_torn_tail_is_kept_under_a_name_of_its_own() {
    let bench = Bench::with_events(2);
    for number in 1..=3 {
        let mut bytes = bench.bytes();
        bytes.extend_from_slice(format!("{{\"seq\":{number}").as_bytes());
        bench.put(&bytes);
        bench.open().unwrap();
        let kept = fs::read_to_string(bench.path().join(format!("journal.torn-{number}"))).unwrap();
        assert_eq!(kept, format!("{{\"seq\":{number}"));
    }
    assert_eq!(bench.read().unwrap().lines.len(), 2);
}

#[test]
fn zeros_left_by_the_file_system_are_a_torn_tail() {
    // After a power cut a file can have its new length but not its new data (common practice).
    let whole = Bench::with_events(2).bytes();
    for tail in [vec![0; 300], [vec![0; 40], b"\"}}\n".to_vec()].concat()] {
        let bench = Bench::new();
        bench.put(&[whole.clone(), tail.clone()].concat());
        let contents = bench.read().unwrap();
        assert_eq!(contents.lines.len(), 2);
        assert_eq!(contents.torn.unwrap().bytes, tail);
    }
}

#[test]
fn reading_changes_nothing() {
    let bench = Bench::with_events(2);
    let cut = bench.bytes().split_last().unwrap().1.to_vec();
    bench.put(&cut);
    let torn = bench.read().unwrap().torn.unwrap();
    assert_eq!(torn.kept_in, None);
    assert_eq!(bench.bytes(), cut);
    assert!(!bench.path().join("journal.torn-1").exists());
}

#[test]
fn an_empty_journal_is_one_that_was_just_made() {
    let bench = Bench::new();
    drop(bench.create());
    let (mut journal, contents) = bench.open().unwrap();
    assert!(contents.lines.is_empty());
    assert_eq!(bench.append(&mut journal, "1 qt").unwrap(), 1);
}
