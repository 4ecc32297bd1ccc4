//! What is said before, between and after the work stands in the record.

use bayhand::record::text::render;
use bayhand::record::{to_json, verify};
use bayhand::run::{Answer, Declared, Disposition, Input, InterruptionAnswer, Leave};

use super::support::Bench;

fn leave(how: Leave, first: Option<&str>) -> Answer {
    let (reason, state) = ("supper".to_owned(), "line open, port capped".to_owned());
    Answer::Leave { how, reason, state, first: first.map(str::to_owned) }
}

/// Broken off once without a word, suspended once with a word, a departure declared, a step left out with approval.
fn interrupted() -> Bench {
    let mut bench = Bench::new();
    bench.begin().support().open_line();
    bench.pass(5).take(Input::Resume);
    bench.give(Answer::AcceptBrief).support();
    let declared = Declared::Substitute;
    let reason = "a jam jar for the jug".to_owned();
    bench.give(Answer::Interruption(InterruptionAnswer::Declare { declared, reason }));
    bench.give(leave(Leave::Suspend, Some("read the gauge")));
    bench.pass(5).take(Input::Resume).give(Answer::AcceptBrief).support();
    bench.pressure().flow().clear();
    bench.give(Answer::Dispose { disposition: Disposition::UseAsIs, reason: "it holds as much".to_owned() });
    bench
}

#[test]
fn what_is_said_between_the_steps_stands_in_the_record() {
    let mut bench = interrupted();
    bench.close();
    let record = bench.record();
    assert_eq!(record.sittings[1].ended.first.as_deref(), Some("read the gauge"));
    let text = render(&record, 80);
    for words in [
        "between: the procedure is for this vehicle",
        "between: state of things: as it was",
        "between: stays in force: vehicle on stands",
        "first next time: read the gauge",
    ] {
        assert!(text.contains(words), "{words}\n{text}");
    }
    assert_eq!(verify(&to_json(&record)), Ok(()));
}

/// Features 47 to 49: a declared departure has its number, reason and disposition on the first page.
#[test]
fn a_declared_deviation_stands_on_the_first_page() {
    let mut bench = interrupted();
    bench.close();
    let record = bench.record();
    assert_eq!(record.deviations.count, 1);
    let text = render(&record, 80);
    let first: Vec<&str> = text.lines().take(30).collect();
    assert!(first[..20].contains(&"Deviations: 1"), "{text}");
    assert!(first.iter().any(|line| line.contains("tool or part substituted")), "{text}");
    assert_eq!(record.deviations.all[0].reason, "a jam jar for the jug");
    assert_eq!(record.deviations.all[0].disposition.as_deref(), Some("use as is"));
}
