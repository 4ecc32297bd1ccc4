//! What is written is what is read.

use bayhand::journal::{Damage, Digest, JournalError};
use jiff::{SignedDuration, Timestamp};
use proptest::prelude::*;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

use super::support::{Bench, evening};

/// Any JSON that an event may hold; numbers finite, depth and size small.
fn any_event() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<u64>().prop_map(Value::from),
        any::<f64>().prop_filter("finite", |number| number.is_finite()).prop_map(Value::from),
        any::<String>().prop_map(Value::from),
    ];
    leaf.prop_recursive(4, 20, 5, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..5).prop_map(Value::from),
            prop::collection::btree_map(any::<String>(), inner, 0..5)
                .prop_map(|map| Value::Object(map.into_iter().collect())),
        ]
    })
}

/// Seconds of the years 1902 to 2200, with nanoseconds.
fn any_time() -> impl Strategy<Value = Timestamp> {
    (-2_145_916_800_i64..7_258_118_400, 0..1_000_000_000_i32)
        .prop_map(|(second, nanosecond)| Timestamp::new(second, nanosecond).unwrap())
}

proptest! {
    #![proptest_config(crate::campaign::cases(40))]

    #[test]
    fn any_list_of_events_reads_back_the_same(
        events in prop::collection::vec((any_event(), any_time()), 0..12),
        reopen_after in 0..12_usize,
    ) {
        let bench = Bench::new();
        let mut journal = bench.create();
        let mut stamps = Vec::new();
        for (at, (event, time)) in events.iter().enumerate() {
            if at == reopen_after {
                drop(journal);
                journal = bench.open().unwrap().0;
            }
            let time = time.in_tz("Europe/Berlin").unwrap();
            stamps.push(journal.append(&time, event).unwrap());
        }
        let head = journal.head();
        drop(journal);
        let contents = bench.read().unwrap();
        prop_assert_eq!(contents.head, head);
        prop_assert_eq!(contents.lines.len(), events.len());
        for ((line, (event, _)), stamp) in contents.lines.iter().zip(&events).zip(&stamps) {
            prop_assert_eq!(&contents.typed::<serde_json::Value>(line).unwrap().event, event);
            prop_assert_eq!((line.seq, &line.time), (stamp.seq, &stamp.time));
        }
    }
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
enum Event {
    Started { procedure: String },
    Reading { name: String, text: String },
}

#[test]
fn typed_events_come_back_as_their_type() {
    let bench = Bench::new();
    let mut journal = bench.create();
    let events = [
        Event::Started { procedure: "cooler-line-flush".to_owned() },
        Event::Reading { name: "caught".to_owned(), text: "5½ qt, “clear”\u{2028}\n".to_owned() },
    ];
    for event in &events {
        journal.append(&bench.system.now(), event).unwrap();
    }
    let recorded = bench.read().unwrap().events::<Event>().unwrap();
    let read: Vec<Event> = recorded.into_iter().map(|recorded| recorded.event).collect();
    assert_eq!(read, events);
}

#[test]
fn an_event_of_an_unknown_kind_is_an_error_that_names_its_line() {
    let bench = Bench::new();
    let mut journal = bench.create();
    let known = json!({"kind": "started", "procedure": "cooler-line-flush"});
    for event in [known, json!({"kind": "welded"})] {
        journal.append(&bench.system.now(), &event).unwrap();
    }
    let error = bench.read().unwrap().events::<Event>().unwrap_err();
    assert!(matches!(&error, JournalError::UnknownEvent { line: 2, .. }));
    assert!(error.to_string().contains("`welded`"), "{error}");
}

#[test]
fn the_acknowledged_time_is_the_time_that_is_read() {
    let bench = Bench::new();
    let mut journal = bench.create();
    let fine = evening().checked_add(SignedDuration::from_nanos(456_789)).unwrap();
    let stamp = journal.append(&fine, &json!({})).unwrap();
    assert_eq!(stamp.time.timestamp(), evening().timestamp());
    assert_eq!(bench.read().unwrap().lines[0].time, stamp.time);
}

#[test]
fn a_clock_that_went_back_is_flagged_where_it_did() {
    let bench = Bench::new();
    let mut journal = bench.create();
    for minutes in [0, 5, 4, 4, 6] {
        let time = evening().checked_add(SignedDuration::from_mins(minutes)).unwrap();
        journal.append(&time, &json!({})).unwrap();
    }
    let flags: Vec<_> = bench.read().unwrap().lines.iter().map(|line| line.clock_back).collect();
    let one_minute = Some(SignedDuration::from_mins(1));
    assert_eq!(flags, [None, None, one_minute, None, None]);
}

#[test]
fn the_change_to_winter_time_is_not_a_clock_that_went_back() {
    let bench = Bench::new();
    let mut journal = bench.create();
    // In Berlin 2026-10-25 the clocks go from 03:00 back to 02:00 (rule of the EU, last Sunday of October).
    for instant in ["2026-10-25T00:50:00Z", "2026-10-25T01:10:00Z"] {
        let time = instant.parse::<Timestamp>().unwrap().in_tz("Europe/Berlin").unwrap();
        journal.append(&time, &json!({})).unwrap();
    }
    let contents = bench.read().unwrap();
    assert!(contents.line(&contents.lines[0]).contains("T02:50:00.000+02:00"));
    assert!(contents.line(&contents.lines[1]).contains("T02:10:00.000+01:00"));
    assert_eq!(contents.lines[1].clock_back, None);
}

#[test]
fn the_chain_is_the_digest_of_each_line_with_its_newline() {
    let bench = Bench::with_events(3);
    let contents = bench.read().unwrap();
    for pair in contents.lines.windows(2) {
        let digest = Digest::of(format!("{}\n", contents.line(&pair[0])).as_bytes());
        assert!(contents.line(&pair[1]).contains(&format!(r#""prev":"{digest}""#)));
    }
    let last = Digest::of(format!("{}\n", contents.line(&contents.lines[2])).as_bytes());
    assert_eq!((contents.head.seq, contents.head.digest), (3, last));
}

#[test]
fn bytes_that_are_not_text_are_an_error_with_a_line() {
    let bench = Bench::with_events(3);
    let mut bytes = bench.bytes();
    let second = bytes.iter().position(|&byte| byte == b'\n').unwrap() + 20;
    bytes[second] = 0xff;
    bench.put(&bytes);
    let error = bench.read().unwrap_err();
    let JournalError::Damaged { line: 2, damage, .. } = error else {
        panic!("{error}");
    };
    assert_eq!(damage, Damage::Unreadable { why: "not UTF-8 text from byte 19 on".to_owned() });
}
