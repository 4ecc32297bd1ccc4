//! What the screens say of formulas: the words for what they use, with its numbers, also at 40 columns.

use bayhand::procedure::Name;
use bayhand::run::{Answer, Ask, FlowAnswer, FlowAsk, Status};
use bayhand::terminal::{Manner, paint, step_in_full};

use crate::run::drive::Drive;

const TABLES: &str = r#"[readings.look]
what = "the old fluid, held against white light"
choices = ["red", "dark", "milky"]
information_only = true
[readings.reverse]
what = "caught in this round, reverse way"
unit = "L"
information_only = true
[readings.rinse]
what = "rinse"
unit = "L"
information_only = true
[values.waste]
what = "used solvent"
formula = '(if worth_flushing then reverse else 0 L) + rinse'
unit = "L"
max = "6 L"
fails = "Take a second can."
[conditions.worth_flushing]
if = 'look != "milky"'
[conditions.water]
if = 'look == "milky" and rinse > 1 L'
[repeats.round]
what = "flush round"
until = 'reverse > 5 L'
at_most = 1
fails = "Find the blocked piece."
not_needed_after = "The rinse shows what is left."
"#;

const BODY: &str = "1. Look at the fluid: [look].\n2. [round] Flush: [reverse].\n3. Rinse: [rinse]. In all: [waste].\n\
4. [water] Look for water.\n";

/// As far as the question of the repeat that has made its last pass.
fn flushed() -> Drive {
    let mut drive = Drive::of(TABLES, BODY);
    drive.enter("red");
    drive.enter("4.9 L");
    while let Ask::Flow(FlowAsk::PassEnd(_)) = drive.ask() {
        drive.take(Answer::Flow(FlowAnswer::Counts));
    }
    drive
}

fn step(drive: &Drive, number: &str, width: usize) -> String {
    let view = drive.view();
    paint(&step_in_full(view, view.book.procedure.step_numbered(number).unwrap()), width, Manner::Lines)
}

fn finished() -> Drive {
    let mut drive = flushed();
    drive.take(Answer::Flow(FlowAnswer::GiveUp {
        disposition: bayhand::run::Disposition::UseAsIs,
        reason: "enough for now".to_owned(),
    }));
    drive.enter("1.3 L");
    drive
}

/// 4.9 L and 1.3 L are 6.2 L.
#[test]
fn a_computed_value_is_told_by_the_words_for_what_it_uses() {
    let drive = finished();
    let at_80 = step(&drive, "1.3", 200);
    let words =
        "used solvent: caught in this round, reverse way 4.9 L + rinse 1.3 L = 6.2 L: fail, 0.2 L above";
    assert!(at_80.contains(words), "{at_80}");
    let at_40 = step(&drive, "1.3", 40);
    assert!(at_40.lines().all(|line| line.chars().count() <= 40), "{at_40}");
    for number in ["4.9 L", "1.3 L", "6.2 L"] {
        assert!(at_40.contains(number), "{at_40}");
    }
    assert!(!at_40.contains("worth_flushing") && !at_40.contains("if "), "{at_40}");
}

#[test]
fn a_step_that_does_not_apply_says_why_in_words() {
    let drive = finished();
    let view = drive.view();
    let status = view.status(view.book.procedure.step_numbered("1.4").unwrap(), None);
    let why = "condition not met: the old fluid, held against white light is \"milky\" (it is \"red\")";
    assert_eq!(status, Status::NotApplicable(why.to_owned()));
}

#[test]
fn a_repeat_says_what_it_waits_for() {
    let drive = flushed();
    assert!(matches!(drive.ask(), Ask::Flow(FlowAsk::Exhausted(_))), "{:?}", drive.ask());
    let said = drive.view().goes_on_until(&Name::from("round"));
    assert_eq!(said.as_deref(), Some("caught in this round, reverse way is above 5 L (it is 4.9 L)"));
    let begun = Drive::of(TABLES, BODY);
    let said = begun.view().goes_on_until(&Name::from("round"));
    assert_eq!(said.as_deref(), Some("caught in this round, reverse way is above 5 L"));
}
