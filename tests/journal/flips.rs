//! No change to a byte before the last line goes unseen, and the line is named.

use proptest::prelude::*;

use super::support::{Bench, line_of};

#[test]
fn of_several_damages_the_first_is_named() {
    let whole = String::from_utf8(Bench::with_events(6).bytes()).unwrap();
    for (later, by) in [("5.5 qt\"}}", "5.5 qt"), ("\"seq\":5", "\"seq\":9"), ("5.5 qt", "6.5 qt")] {
        let bench = Bench::new();
        bench.put(whole.replace("2.5 qt", "3.5 qt").replace(later, by).as_bytes());
        assert_eq!(line_of(&bench.read().unwrap_err()), Some(2), "{later}");
    }
}

proptest! {
    #![proptest_config(crate::campaign::cases(60))]

    #[test]
    fn any_bytes_put_in_the_place_of_others_are_found(
        at in 0..800_usize,
        cut in 0..40_usize,
        put in prop::collection::vec(any::<u8>(), 0..40),
    ) {
        let bench = Bench::with_events(5);
        let whole = bench.bytes();
        let last_line = length_of(&bench, ..4);
        let (at, cut) = (at % last_line, cut.min(last_line - at % last_line));
        let changed = [&whole[..at], &put, &whole[at + cut..]].concat();
        bench.put(&changed);
        prop_assert_eq!(bench.read().is_ok(), changed == whole);
    }

    #[test]
    fn whatever_the_file_holds_each_of_its_bytes_is_accounted_for(
        lines in 0..4_u64,
        tail in prop_oneof![
            prop::collection::vec(any::<u8>(), 0..60),
            r#"[{}\[\]":,0-9a-z\\ \n]{0,60}"#.prop_map(String::into_bytes),
        ],
    ) {
        let bench = Bench::with_events(lines);
        let bytes = [bench.bytes(), tail].concat();
        bench.put(&bytes);
        match bench.read() {
            Ok(contents) => {
                let torn = contents.torn.map_or(0, |torn| torn.bytes.len() as u64);
                prop_assert_eq!(contents.head.length + torn, bytes.len() as u64);
            }
            Err(error) => prop_assert!(line_of(&error) > Some(lines), "{}", error),
        }
    }
}

fn line_at(bytes: &[u8], at: usize) -> u64 {
    bytes[..at].split(|&byte| byte == b'\n').count() as u64
}

/// The length of the first lines, with their newlines.
fn length_of(bench: &Bench, lines: std::ops::RangeTo<usize>) -> usize {
    let contents = bench.read().unwrap();
    contents.lines[lines].iter().map(|line| contents.line(line).len() + 1).sum()
}

#[test]
fn every_single_bit_before_the_last_line_is_guarded() {
    let bench = Bench::with_events(4);
    let whole = bench.bytes();
    let before_last = length_of(&bench, ..3);
    for at in 0..before_last {
        for bit in 0..8 {
            let mut bytes = whole.clone();
            bytes[at] ^= 1 << bit;
            bench.put(&bytes);
            let error = bench.read().expect_err(&format!("byte {at}, bit {bit}"));
            let named = line_of(&error);
            assert_eq!(named, Some(line_at(&whole, at)), "byte {at}, bit {bit}: {error}");
        }
    }
}

#[test]
fn a_bit_of_the_last_line_never_harms_the_lines_before() {
    let bench = Bench::with_events(3);
    let whole = bench.bytes();
    let last = length_of(&bench, ..2);
    for at in last..whole.len() {
        for bit in 0..8 {
            let mut bytes = whole.clone();
            bytes[at] ^= 1 << bit;
            bench.put(&bytes);
            match bench.read() {
                Ok(contents) => assert!(contents.lines.len() >= 2, "byte {at}, bit {bit}"),
                // A changed link of the last line cannot be told from a changed line before it.
                Err(error) => assert!(line_of(&error) >= Some(2), "byte {at}, bit {bit}: {error}"),
            }
        }
    }
}

#[test]
fn a_damaged_journal_is_refused_and_left_as_it_is() {
    let bench = Bench::with_events(4);
    let damaged = String::from_utf8(bench.bytes()).unwrap().replace("2.5 qt", "3.5 qt");
    bench.put(damaged.as_bytes());
    let error = bench.open().unwrap_err();
    let file = bench.file();
    assert_eq!(
        error.to_string(),
        format!(
            "`{}` is damaged: line 2 was changed after it was written; bayhand has changed nothing, and line 1 is \
             proved intact; put back a good copy of the file if there is one, else keep it as it is for the record and \
             start a new run from the last step that is proved",
            file.display()
        )
    );
    assert_eq!(bench.bytes(), damaged.as_bytes());
}
