//! Groups of fasteners in the record: place by place, stage by stage, pass by pass.

use bayhand::procedure::Name;
use bayhand::record::model::{FastenerPlace, Record};
use bayhand::record::text::render;
use bayhand::record::{to_json, verify};
use bayhand::run::{Answer, Disposition, FasteningAnswer, FlowAnswer, Input, Leave, Spot};

use super::golden::expect;
use super::same_fields::compare;
use super::support::Bench;

const PROCEDURE: &str = include_str!("../cases/record/pan-bolts.md");

fn own(answer: FasteningAnswer) -> Answer {
    Answer::Fastening(answer)
}

fn stage(bench: &mut Bench, places: usize) {
    for _ in 0..places {
        bench.give(Answer::Done);
    }
}

fn set(bench: &mut Bench) {
    bench.give(own(FasteningAnswer::StageSet));
}

fn counts(bench: &mut Bench) {
    bench.give(Answer::Flow(FlowAnswer::Counts));
}

/// The front pan: one value that fails, a night in the middle of a stage, one that is corrected.
fn front(bench: &mut Bench) {
    stage(bench, 4);
    set(bench);
    stage(bench, 2);
    bench.leave(Leave::Suspend, "supper", "pan half tight");
    bench.pass(12 * 60).take(Input::Resume).give(Answer::AcceptBrief).same_people();
    stage(bench, 2);
    set(bench);
    bench.typed("8.5").give(Answer::Again { reason: "the wrench had slipped".to_owned() });
    bench.typed("10").typed("7.5 lbf·ft").typed("10.1").typed("9.9");
    let at = Spot { group: Name::from("pan"), stage: 2, position: "4".to_owned() };
    let reason = "a figure swapped".to_owned();
    bench.give(own(FasteningAnswer::Correct { entry: None, at, text: "9.8".to_owned(), reason }));
}

/// The rear pan: one place left out, one loosened again, one off its target.
fn rear(bench: &mut Bench) {
    set(bench);
    stage(bench, 4);
    set(bench);
    bench.give(own(FasteningAnswer::Skip { reason: "the thread is stripped".to_owned() }));
    stage(bench, 1);
    let (group, position) = (Name::from("pan"), Some("3".to_owned()));
    let reason = "its washer was missing".to_owned();
    bench.give(own(FasteningAnswer::Loosened { group, position, reason }));
    set(bench);
    stage(bench, 1);
    set(bench);
    stage(bench, 3);
    set(bench);
    bench.typed("12").give(Answer::Accept {
        disposition: Disposition::UseAsIs,
        reason: "no mark on the gasket".to_owned(),
    });
    bench.typed("10").typed("10");
    counts(bench);
}

pub fn tightened() -> Record {
    let mut bench = Bench::of("pan-bolts", PROCEDURE);
    for name in ["Robin Vale", "Sam Hollis"] {
        bench.give(Answer::Person(name.to_owned()));
    }
    bench.typed("152 300 km");
    let source = "service manual, page 7-12".to_owned();
    bench.give(Answer::Sourced { text: "10 N·m".to_owned(), source });
    front(&mut bench);
    rear(&mut bench);
    stage(&mut bench, 2);
    bench.dispose("a helicoil is ordered").close();
    bench.record()
}

fn place<'record>(
    record: &'record Record,
    pass: usize,
    stage: usize,
    position: &str,
) -> &'record FastenerPlace {
    let places = &record.fasteners[pass].stages[stage].places;
    places.iter().find(|place| place.position == position).unwrap()
}

fn acts(place: &FastenerPlace) -> Vec<(&str, Option<&str>)> {
    let acts = place.acts.iter();
    acts.map(|act| (act.what.as_str(), act.reached.as_ref().map(|reached| reached.text.as_str()))).collect()
}

#[test]
fn each_place_says_who_and_when_and_what() {
    let record = tightened();
    let first = place(&record, 0, 0, "1");
    assert_eq!((first.state.as_str(), &first.acts[0].who[..]), ("done", &["Sam Hollis".to_owned()][..]));
    let read = place(&record, 0, 2, "1");
    assert_eq!(acts(read), [("done", Some("8.5")), ("once more", None), ("done", Some("10"))]);
    let verdicts: Vec<_> =
        read.acts.iter().filter_map(|act| Some(act.judged.as_ref()?.verdict.as_str())).collect();
    assert_eq!(verdicts, ["fail", "pass"]);
    assert_eq!(acts(place(&record, 0, 2, "4")), [("done", Some("9.9")), ("corrected", Some("9.8"))]);
}

/// Half of 10 N·m, and 10 N·m within a tenth, by hand.
#[test]
fn targets_say_how_they_came_about() {
    let record = tightened();
    let stages = &record.fasteners[0].stages;
    assert!(stages[0].target.is_none());
    let half = stages[1].target.as_ref().unwrap();
    assert_eq!((half.amount.as_ref().unwrap().number.as_str(), half.lower.as_ref()), ("5", None));
    assert!(half.trace.as_ref().unwrap().contains("0.5 * 10 N·m"), "{half:?}");
    let full = stages[2].target.as_ref().unwrap();
    let bounds = [&full.lower, &full.upper].map(|bound| bound.as_ref().unwrap().amount.number.clone());
    assert_eq!(bounds, ["9", "11"]);
    let instrument = record.fasteners[0].instrument.as_ref().unwrap();
    assert_eq!(instrument.what, "torque wrench");
}

#[test]
fn each_pass_is_kept_with_its_words() {
    let record = tightened();
    let passes: Vec<_> =
        record.fasteners[..2].iter().map(|group| group.place.pass.as_deref().unwrap()).collect();
    assert_eq!(passes, ["pass 1 of 2 (front pan)", "pass 2 of 2 (rear pan)"]);
    assert!(place(&record, 0, 2, "2").state == "done" && place(&record, 1, 2, "2").state == "done");
    assert_eq!(record.fasteners[2].place.pass, None);
}

#[test]
fn what_was_left_out_loosened_or_off_is_numbered_and_named() {
    let record = tightened();
    let left_out = place(&record, 1, 1, "1");
    assert_eq!((left_out.state.as_str(), left_out.acts[0].deviation), ("deviation 1", Some(1)));
    assert_eq!(place(&record, 1, 2, "1").state, "deviation 1", "also in the stages after it");
    assert_eq!(place(&record, 1, 0, "1").state, "done");
    let off = place(&record, 1, 2, "3");
    assert_eq!((off.state.as_str(), off.acts[1].deviation), ("deviation 2", Some(2)));
    let loosened = &record.fasteners[1].loosened[0];
    assert_eq!(loosened.reason, "its washer was missing");
    assert_eq!(acts(place(&record, 1, 0, "3")), [("done", None), ("done", None)], "what was before is kept");
    let departs: Vec<_> = record.deviations.all.iter().map(|deviation| deviation.departs.as_str()).collect();
    assert_eq!(
        departs,
        [
            "left out from this stage on: 1, stage half (bolts of the pan)",
            "3, stage full (bolts of the pan): 12 N·m; fail, 1 N·m above the maximum of 11 N·m"
        ]
    );
    assert_eq!(record.deviations.all[0].step, "1.1");
}

#[test]
fn data_and_text_say_the_same() {
    compare(&tightened());
}

#[test]
fn the_text_is_as_expected_at_both_widths() {
    expect("pan-bolts", &tightened(), 80);
    expect("pan-bolts", &tightened(), 40);
    let widest = render(&tightened(), 40).lines().map(|line| line.chars().count()).max();
    assert!(widest.unwrap() <= 40);
}

#[test]
fn it_verifies() {
    assert_eq!(verify(&to_json(&tightened())), Ok(()));
}
