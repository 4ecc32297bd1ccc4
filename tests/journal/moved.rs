//! Lines swapped, dropped and doubled are found at each place, and named.

use bayhand::journal::{Damage, JournalError};

use super::support::Bench;

const COUNT: usize = 5;

fn damage(lines: &[&str]) -> (u64, Damage) {
    let bench = Bench::new();
    bench.put(lines.concat().as_bytes());
    match bench.read().unwrap_err() {
        JournalError::Damaged { line, damage, .. } => (line, damage),
        other => panic!("{other}"),
    }
}

fn with_lines(check: impl Fn(Vec<&str>)) {
    let text = String::from_utf8(Bench::with_events(COUNT as u64).bytes()).unwrap();
    check(text.split_inclusive('\n').collect());
}

#[test]
fn any_two_lines_swapped() {
    with_lines(|lines| {
        for first in 0..COUNT {
            for second in first + 1..COUNT {
                let mut swapped = lines.clone();
                swapped.swap(first, second);
                let carries = second as u64 + 1;
                let expected = (first as u64 + 1, Damage::OutOfOrder { carries });
                assert_eq!(damage(&swapped), expected);
            }
        }
    });
}

#[test]
fn any_line_dropped_but_the_last() {
    with_lines(|lines| {
        for dropped in 0..COUNT - 1 {
            let mut fewer = lines.clone();
            fewer.remove(dropped);
            let number = dropped as u64 + 1;
            assert_eq!(damage(&fewer), (number, Damage::Missing { last: number }));
        }
    });
}

#[test]
fn several_lines_dropped() {
    with_lines(|lines| {
        let fewer = [lines[0], lines[3], lines[4]];
        assert_eq!(damage(&fewer), (2, Damage::Missing { last: 3 }));
    });
}

#[test]
fn any_line_doubled_at_any_place_below() {
    with_lines(|lines| {
        for doubled in 0..COUNT {
            for place in doubled + 1..=COUNT {
                let mut more = lines.clone();
                more.insert(place, lines[doubled]);
                let of = doubled as u64 + 1;
                assert_eq!(damage(&more), (place as u64 + 1, Damage::Doubled { of }));
            }
        }
    });
}

#[test]
fn lines_of_another_journal_do_not_fit() {
    let other = Bench::new();
    let mut journal = other.create();
    for text in ["7 qt", "8 qt", "9 qt"] {
        other.append(&mut journal, text).unwrap();
    }
    let other = String::from_utf8(other.bytes()).unwrap();
    let other: Vec<&str> = other.split_inclusive('\n').collect();
    with_lines(|lines| {
        let mixed = [lines[0], lines[1], other[2], lines[3], lines[4]];
        assert_eq!(damage(&mixed), (2, Damage::ChangedOrNext));
    });
}
