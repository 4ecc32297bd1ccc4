//! The person made of a list of answers.

use std::io;
use std::time::Duration;

use bayhand::terminal::{Asked, Entry, Heard, KeyHint, Scripted, Text, Ui, Wait};

fn keys() -> [KeyHint; 1] {
    [KeyHint::new('y', "yes")]
}

#[test]
fn answers_come_in_order_and_everything_is_logged() {
    let mut ui = Scripted::new([Heard::Key('x'), Heard::Key('Y'), Heard::Text("5 qt".into())]);
    ui.say(&Text::plain("hello")).expect("said");
    assert_eq!(ui.ask_key("Cold?", &keys()).expect("heard"), Heard::Key('y'));
    assert_eq!(ui.ask_text("Put in", Entry::Main).expect("heard"), Heard::Text("5 qt".into()));
    assert_eq!(ui.ask_text("More", Entry::Main).expect("heard"), Heard::Gone);
    assert_eq!(ui.words(), "hello\nCold?\n[y] yes\n`x` is not asked for here.\nPut in\nMore");
    assert_eq!(ui.log().get(2), Some(&Asked::Refused('x')));
    assert_eq!(ui.left(), 0);
}

#[test]
fn an_answer_of_the_wrong_kind_is_an_error() {
    let wrong =
        |heard| Scripted::new([heard]).ask_choice("Which?", &["a".into()], 0).expect_err("out of step");
    assert_eq!(wrong(Heard::Text("a".into())).kind(), io::ErrorKind::InvalidData);
    assert_eq!(wrong(Heard::Chosen(1)).kind(), io::ErrorKind::InvalidData);
}

#[test]
fn a_wait_that_is_over_needs_no_answer() {
    let mut ui = Scripted::new([Heard::Elapsed]);
    let second = Duration::from_secs(1);
    let mut wait = |elapsed: Duration| {
        ui.wait(&Wait { label: "settles", total: second, elapsed: &|| elapsed, over_at: "21:40" })
            .expect("heard")
    };
    assert_eq!(wait(second), Heard::Elapsed);
    assert_eq!(wait(Duration::ZERO), Heard::Elapsed);
    assert_eq!(ui.left(), 0);
}
