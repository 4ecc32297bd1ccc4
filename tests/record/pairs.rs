//! What was found stands beside what was left of the same item, in whatever passes either was read.

use bayhand::record::model::{Pair, Record};
use bayhand::record::text::render;
use bayhand::record::{to_json, verify};
use bayhand::run::{Answer, FlowAnswer};

use super::same_fields::compare;
use super::support::Bench;
use super::times::Own;

const TWO: &str = include_str!("../cases/record/senders.md");
const UNTIL: &str = include_str!("../cases/record/sender-until.md");

fn begun(id: &str, text: &str) -> Bench {
    let mut bench = Bench::of(id, text);
    bench.give(Answer::Person("Robin Vale".to_owned()));
    bench
}

/// Of which item, what was found, what was left.
fn told(pair: &Pair) -> (Option<&str>, Option<&str>, Option<&str>) {
    (
        pair.of.as_deref(),
        pair.as_found.as_ref().map(|end| end.shown.as_str()),
        pair.as_left.as_ref().map(|end| end.shown.as_str()),
    )
}

fn pairs(record: &Record) -> Vec<(Option<&str>, Option<&str>, Option<&str>)> {
    record.pairs.iter().map(told).collect()
}

#[test]
fn two_lists_that_go_the_other_way_round_are_paired_by_the_item() {
    let mut bench = begun("senders", TWO);
    bench.typed("6 V");
    bench.typed("4 V");
    bench.typed("4.5 V");
    bench.typed("5 V");
    bench.close();
    let record = bench.record();
    assert_eq!(
        pairs(&record),
        [(Some("front"), Some("6 V"), Some("5 V")), (Some("rear"), Some("4 V"), Some("4.5 V"))]
    );
    let text = render(&record, 80);
    assert!(text.contains("sender front: as found 6 V (fail); as left 5 V (pass)"), "{text}");
    assert!(!text.contains("not read"), "{text}");
    assert_eq!(record.result, "completed without deviation; as found, 1 reading outside the limits");
    compare(&record);
}

#[test]
fn of_passes_that_replace_each_other_the_last_one_answers() {
    let mut bench = begun("sender-until", UNTIL);
    bench.typed("6 V");
    for volts in ["5.5 V", "4.5 V"] {
        bench.give(Answer::Done).typed(volts);
        if volts == "5.5 V" {
            bench.give(Answer::Again { reason: "read too early".to_owned() }).typed("5.4 V");
            let (disposition, reason) = (bayhand::run::Disposition::Rework, "one turn more".to_owned());
            bench.give(Answer::Accept { disposition, reason });
            bench.give(Answer::Flow(FlowAnswer::Counts));
        }
    }
    bench.close();
    let record = bench.record();
    assert_eq!(pairs(&record), [(None, Some("6 V"), Some("4.5 V"))]);
    let ends = record.readings.iter().filter(|reading| reading.name == "after");
    let passes: Vec<_> =
        ends.map(|reading| (reading.place.pass.as_deref(), reading.attempts.len())).collect();
    assert_eq!(passes, [(Some("pass 1"), 2), (Some("pass 2"), 1)]);
    assert_eq!((record.outcome.readings_failed, record.outcome.taken_again), (2, 0));
    assert!(record.result.starts_with("completed with 1 deviation; 2 readings failed"), "{}", record.result);
    assert_eq!(verify(&to_json(&record)), Ok(()));
}

/// Both in the same pass, both once, and what was found once beside what was left of each.
#[test]
fn pairs_in_one_pass_and_outside_of_all() {
    let tables = "[readings.before]\nwhat = \"gap\"\nunit = \"mm\"\nmax = \"1 mm\"\nas_found = true\nfails = \"Set it.\"\n\
[readings.after]\nwhat = \"gap after\"\nunit = \"mm\"\nmax = \"1 mm\"\nas_left = \"before\"\nfails = \"Set it.\"\n\
[repeats.side]\nwhat = \"both sides\"\neach = [\"left\", \"right\"]\n";
    let within =
        "1. [side] At the [side] side:\n   1. Read [before].\n   2. Set and read [after].\n2. Wipe.\n";
    let mut own = Own::of(tables, within);
    for gap in ["2 mm", "3 mm"] {
        own.typed(gap);
        own.typed("0.5 mm");
    }
    own.give(Answer::Done);
    let (record, _) = own.record();
    let (left, right) = (Some("pass 1 of 2 (left)"), Some("pass 2 of 2 (right)"));
    let half = Some("0.5 mm");
    assert_eq!(pairs(&record), [(left, Some("2 mm"), half), (right, Some("3 mm"), half)]);

    let once = "1. Read [before].\n2. [side] Set the [side] side and read [after].\n3. Wipe.\n";
    let mut own = Own::of(tables, once);
    own.typed("2 mm");
    for gap in ["0.5 mm", "0.4 mm"] {
        own.typed(gap);
    }
    own.give(Answer::Done);
    let (record, _) = own.record();
    let found = Some("2 mm");
    assert_eq!(pairs(&record), [(Some("left"), found, half), (Some("right"), found, Some("0.4 mm"))]);
}
