//! Times in the form of RFC 3339, against a public suite of valid and invalid ones.

use bayhand::journal::{read_time, write_time};
use jiff::Timestamp;

struct Case {
    text: String,
    valid: bool,
    jiff_agrees: bool,
}

fn cases() -> Vec<Case> {
    let lines = include_str!("../cases/journal/rfc3339.txt").lines();
    lines.filter(|line| !line.starts_with('#')).map(case).collect()
}

fn case(line: &str) -> Case {
    let (verdict, rest) = line.split_once(' ').unwrap();
    assert!(matches!(verdict, "valid" | "invalid"), "{line}");
    let text = rest.split(" jiff-").next().unwrap();
    Case { text: serde_json::from_str(text).unwrap(), valid: verdict == "valid", jiff_agrees: text == rest }
}

#[test]
fn every_verdict_of_the_suite_is_ours() {
    for case in cases() {
        let read = read_time(&case.text);
        assert_eq!(read.is_ok(), case.valid, "{:?}: {read:?}", case.text);
    }
}

#[test]
fn valid_times_are_the_same_instant_as_jiff_reads() {
    for case in cases().iter().filter(|case| case.valid) {
        let Ok(instant) = case.text.parse::<Timestamp>() else {
            continue;
        };
        assert_eq!(read_time(&case.text).unwrap().timestamp(), instant, "{}", case.text);
    }
}

#[test]
fn jiff_itself_reads_more_and_less_as_the_cases_say() {
    for case in cases() {
        let agrees = case.text.parse::<Timestamp>().is_ok() == case.valid;
        assert_eq!(agrees, case.jiff_agrees, "{:?}", case.text);
    }
}

#[test]
fn offsets_are_kept_and_the_instant_is_right() {
    // RFC 3339 section 5.8 (from memory): both name the same instant.
    let local = read_time("1996-12-19T16:39:57-08:00").unwrap();
    let utc = read_time("1996-12-20T00:39:57Z").unwrap();
    assert_eq!(local.timestamp(), utc.timestamp());
    assert_eq!((local.hour(), utc.hour()), (16, 0));
    assert_eq!(local.offset().seconds(), -8 * 3600);
}

#[test]
fn a_leap_second_is_the_second_before_it() {
    let leap = read_time("1998-12-31T15:59:60.123-08:00").unwrap();
    assert_eq!(write_time(&leap), "1998-12-31T15:59:59.123-08:00");
}

#[test]
fn what_is_written_is_cut_to_the_millisecond_and_reads_back_the_same() {
    for (zoned, written) in [
        ("2026-11-21T18:30:05.1239+01:00[Europe/Berlin]", "2026-11-21T18:30:05.123+01:00"),
        ("2026-07-01T00:00:00-07:00[America/Los_Angeles]", "2026-07-01T00:00:00.000-07:00"),
        ("2026-07-01T00:00:00.9999+05:45[Asia/Kathmandu]", "2026-07-01T00:00:00.999+05:45"),
        ("2026-07-01T12:00:00+00:00[UTC]", "2026-07-01T12:00:00.000+00:00"),
    ] {
        let text = write_time(&zoned.parse().unwrap());
        assert_eq!(text, written);
        assert_eq!(write_time(&read_time(&text).unwrap()), written);
    }
}

#[test]
fn a_refusal_shows_the_text_and_a_right_one() {
    let refusal = read_time("yesterday").unwrap_err().to_string();
    assert_eq!(refusal, "`yesterday` is not a date and time with offset, such as 2026-11-21T18:30:05+01:00");
}
