//! A hold point that tightens: it is released only with each place done and good.

use bayhand::run::{Answer, Ask, Disposition, FasteningAnswer, FasteningAsk, Refusal, Spot};

use super::drive::{Drive, name, reason};

/// Two nuts, one stage; what is good is invented for the test.
const TABLES: &str = "\
[fasteners.nuts]\nwhat = \"nuts of the wheel\"\npositions = [\"1\", \"2\"]\n\
stages = [{ what = \"full\", unit = \"N·m\", min = 90, max = 110, read = true }]\n\
[holds.wheel]\nwhat = \"the wheel is tight\"\nconfirm = [\"the wheel sits flat\"]\nreadings = [\"nuts\"]\n\
release = \"lead\"\nlapses = [\"disturbed\"]\n";
const BODY: &str = "1. [wheel] Tighten them: [nuts].\n2. Lower it.\n";

fn at(position: &str) -> Spot {
    Spot { group: name("nuts"), stage: 0, position: position.to_owned() }
}

fn reach(position: &str) -> Ask {
    Ask::Fastening(FasteningAsk::Reach(at(position)))
}

fn failed(position: &str) -> Ask {
    Ask::Fastening(FasteningAsk::Failed(at(position)))
}

fn released() -> Drive {
    let mut drive = Drive::of(TABLES, BODY);
    drive.take(Answer::True);
    drive.enter("100");
    drive.enter("101");
    drive.release();
    drive
}

/// In front of a sentence a hold point says what the step is, and is no part of the sentence.
#[test]
fn the_step_is_said_without_its_hold_point() {
    let first = |body: &str| {
        let drive = Drive::of(TABLES, body);
        let text = &drive.book.procedure.steps()[0].text;
        format!("{:?}", text.first().unwrap())
    };
    assert!(first(BODY).contains("Tighten them: "), "{}", first(BODY));
    let in_a_sentence = "1. [wheel], then lower it.\n2. Wipe.\n";
    assert!(first(in_a_sentence).starts_with("Mention"), "{}", first(in_a_sentence));
}

#[test]
fn each_place_comes_before_the_release() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.take(Answer::True);
    assert_eq!(drive.ask(), reach("1"));
    drive.enter("100");
    assert_eq!(drive.ask(), reach("2"));
    drive.enter("100");
    assert_eq!(drive.ask(), Ask::Release { hold: name("wheel"), role: name("lead") });
    drive.release();
    assert_eq!(drive.number(), "1.2", "the step tightens nothing more");
}

/// Nothing is gone on with and nothing is left out.
#[test]
fn what_is_not_good_keeps_it_shut() {
    let mut drive = Drive::of(TABLES, BODY);
    drive.take(Answer::True);
    let left_out = Answer::Fastening(FasteningAnswer::Skip { reason: reason() });
    assert!(matches!(drive.answer(left_out.clone()), Err(Refusal::HoldPoint(_))));
    drive.enter("80");
    assert_eq!(drive.ask(), failed("1"));
    let gone_on = Answer::Accept { disposition: Disposition::UseAsIs, reason: reason() };
    assert!(matches!(drive.answer(gone_on), Err(Refusal::HoldPoint(_))));
    assert!(matches!(drive.answer(left_out), Err(Refusal::HoldPoint(_))));
    drive.take(Answer::Again { reason: reason() });
    drive.enter("95");
    assert_eq!(drive.ask(), reach("2"));
}

#[test]
fn whatever_opens_it_again_asks_for_each_place_again() {
    let mut drive = released();
    drive.take(Answer::Disturbed { what: "the wheel was knocked".to_owned(), hold: None });
    assert_eq!(drive.ask(), Ask::Confirm { hold: name("wheel"), item: 0 });
    drive.take(Answer::True);
    assert_eq!(drive.ask(), reach("1"), "what was done before does not count");
    drive.enter("100");
    drive.enter("100");
    drive.release();
    assert_eq!(drive.number(), "1.2");
}

#[test]
fn what_is_loosened_again_opens_it() {
    let mut drive = released();
    let (group, position) = (name("nuts"), Some("2".to_owned()));
    drive.take(Answer::Fastening(FasteningAnswer::Loosened { group, position, reason: reason() }));
    assert!(!drive.view().stands(&name("wheel")));
    assert_eq!(drive.view().lapse(&name("wheel")).unwrap(), format!("2 loosened again: {}", reason()));
    assert_eq!(drive.ask(), Ask::Confirm { hold: name("wheel"), item: 0 });
    drive.take(Answer::True);
    assert_eq!(drive.ask(), reach("1"));
}

/// A value that was misread and is not good opens it; one that stays good does not.
#[test]
fn a_correction_opens_it_where_a_place_is_not_good_any_more() {
    let mut drive = released();
    let correct = |text: &str| {
        let (at, text) = (at("2"), text.to_owned());
        Answer::Fastening(FasteningAnswer::Correct { at, entry: None, text, reason: reason() })
    };
    drive.take(correct("99"));
    assert_eq!(drive.number(), "1.2");
    drive.take(correct("9.9"));
    assert!(!drive.view().stands(&name("wheel")));
    drive.take(Answer::True);
    assert_eq!(drive.ask(), reach("1"));
    drive.enter("100");
    drive.enter("100");
    drive.release();
    assert_eq!(drive.number(), "1.2");
}
