//! Named outcomes in place of a value, in the record's data and text.

use bayhand::record::model::{Answer as Recorded, Attempt, Record};
use bayhand::record::text::render;
use bayhand::record::{to_json, verify};
use bayhand::run::{Answer, Disposition, LateAnswer, SlipCheck};

use super::same_fields::compare;
use super::times::Own;

const TABLES: &str = "[readings.before]\nwhat = \"time until it goes out\"\nunit = \"s\"\nmax = 15\nas_found = true\n\
instead = { \"does not burn\" = \"pass\", \"never reached\" = \"fail\" }\n\
[readings.after]\nwhat = \"time after it\"\nunit = \"s\"\nmax = 15\nas_left = \"before\"\nfails = \"Try again.\"\n\
instead = { \"does not burn\" = \"pass\", \"never reached\" = \"fail\" }\n\
[readings.look]\nwhat = \"look of the strip\"\nchoices = [\"clear\", \"charred\"]\naccept = [\"clear\"]\nfails = \"Clean it.\"\n\
instead = { \"strip is gone\" = \"fail\", \"not looked at\" = \"information only\" }\n\
[values.rate]\nwhat = \"how fast it burns\"\nformula = '250 mm / after'\nunit = \"mm/min\"\nmax = \"100 mm/min\"\nfails = \"See the source.\"\n";
const BODY: &str =
    "1. Time it: [before].\n2. Wash it, time it again: [after].\n3. Look: [look].\n4. It burns at [rate].\n";

fn accept(reason: &str) -> Answer {
    Answer::Accept { disposition: Disposition::UseAsIs, reason: reason.to_owned() }
}

fn correct(reading: &str, text: &str, reason: &str) -> Answer {
    let reading = bayhand::procedure::Name::from(reading);
    Answer::Correct { reading, entry: None, text: text.to_owned(), reason: reason.to_owned() }
}

/// One strip from a failing outcome to one that passes, with everything that can come between.
fn recorded() -> (Record, String) {
    let mut own = Own::of(TABLES, BODY);
    own.typed("never reached");
    own.typed("20 s");
    own.give(correct("after", "Never  Reached", "the watch ran on"));
    own.give(Answer::Again { reason: "washed again".to_owned() });
    own.pass(10);
    let done = "18:35".to_owned();
    let answer = Box::new(Answer::Typed { text: "does not burn".to_owned(), slip: SlipCheck::Ask });
    own.give(LateAnswer { answer, done, reason: "from paper".to_owned() }.into());
    own.typed("3");
    own.give(accept("a new strip is fitted next week"));
    own.give(accept("it does not burn at all"));
    own.give(Answer::Done);
    own.record()
}

fn attempts<'r>(record: &'r Record, name: &str) -> &'r [Attempt] {
    &record.readings.iter().find(|reading| reading.name == name).unwrap().attempts
}

fn outcome(words: &str) -> Recorded {
    Recorded::Instead(words.to_owned())
}

#[test]
fn data_and_text_carry_the_outcome_and_the_verdict_of_the_procedure() {
    let (record, text) = recorded();
    let found = &attempts(&record, "before")[0];
    assert_eq!(found.answer, outcome("never reached"));
    let judged = found.judged.as_ref().unwrap();
    assert_eq!(
        (judged.verdict.as_str(), judged.words.as_str()),
        ("fail", "as found: fail, as the procedure says")
    );
    assert!(judged.distance.is_none() && judged.upper.is_none() && judged.decision_rule.is_none());
    assert!(text.contains("attempt 1: never reached (named outcome)"), "{text}");
    assert_eq!(verify(&to_json(&record)), Ok(()));
    compare(&record);
    assert!(render(&record, 40).contains("never reached"));
}

#[test]
fn a_correction_and_a_late_entry_are_told_as_any_other() {
    let (record, text) = recorded();
    let [first, second] = attempts(&record, "after") else { panic!("{text}") };
    assert_eq!(first.answer, outcome("never reached"));
    assert!(matches!(&first.corrected[0].before, Recorded::Quantity(typed) if typed.text == "20 s"));
    assert_eq!(second.answer, outcome("does not burn"));
    assert_eq!(second.late.as_ref().unwrap().reason, "from paper");
    assert_eq!(second.judged.as_ref().unwrap().words, "pass, as the procedure says");
}

#[test]
fn as_found_and_as_left_stand_side_by_side() {
    let (record, text) = recorded();
    let pair = &record.pairs[0];
    let ends = (pair.as_found.as_ref().unwrap(), pair.as_left.as_ref().unwrap());
    assert_eq!((ends.0.shown.as_str(), ends.0.verdict.as_str()), ("never reached", "fail"));
    assert_eq!((ends.1.shown.as_str(), ends.1.verdict.as_str()), ("does not burn", "pass"));
    assert!(text.contains("as found never reached (fail); as left does not burn (pass)"), "{text}");
}

#[test]
fn what_rests_on_it_is_not_judged_and_says_why() {
    let (record, _) = recorded();
    assert_eq!(attempts(&record, "look")[0].answer, outcome("strip is gone"));
    let rate = record.values[0].result.as_ref().unwrap();
    assert_eq!((rate.judged.verdict.as_str(), rate.result.as_ref()), ("not judged", None));
    assert_eq!(rate.judged.words, "cannot be judged: time after it is \"does not burn\", no number");
    assert_eq!((rate.deviation, record.outcome.readings_failed), (Some(2), 2));
    assert!(
        record.result.starts_with("completed with 2 deviations; 2 readings failed (1 taken again)"),
        "{}",
        record.result
    );
}
