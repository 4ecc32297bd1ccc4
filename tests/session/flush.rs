//! The whole flush at a terminal, with the answers of its example; its waits are shortened, nothing else.

use serde::Deserialize;

use super::seat::{Seat, Speech, Waits};
use super::stage::{Stage, words_of};

#[derive(Deserialize)]
struct Answers {
    answers: Vec<Answer>,
}

#[derive(Deserialize)]
struct Answer {
    at: String,
    enter: Option<String>,
    #[serde(rename = "do")]
    act: Option<String>,
    reason: Option<String>,
}

fn flush_with_short_waits() -> Stage {
    let stage = Stage::with_flush();
    let text = stage.text("cooler-line-flush.md");
    let short = ["5 min", "10 min"]
        .iter()
        .fold(text, |text, time| text.replace(&format!("at_least = \"{time}\""), "at_least = \"1 s\""));
    stage.file("cooler-line-flush.md", &short);
    stage
}

fn walk(speech: Speech, size: (u16, u16)) -> Stage {
    let stage = flush_with_short_waits();
    let answers: Answers = toml::from_str(&stage.text("answers-example.toml")).expect("answers");
    let (procedure, sheet) = (stage.path("cooler-line-flush.md"), stage.path("vehicle-example.toml"));
    let (procedure, sheet) = (procedure.to_string_lossy(), sheet.to_string_lossy());
    let mut seat = Seat::take_at(&stage, speech, size, &["run", &procedure, "--vehicle", &sheet]);
    for answer in &answers.answers {
        give(&mut seat, answer);
    }
    seat.sees("The record is sealed");
    assert_eq!(seat.leaves(), 0);
    stage
}

fn give(seat: &mut Seat, answer: &Answer) {
    seat.sits_it_out();
    let (said, kind) = seat.question();
    is_whole(seat, &said);
    is_told_once(&answer.at, &said);
    match (&answer.enter, answer.act.as_deref()) {
        (Some(text), _) if kind == Waits::Line => seat.types(&format!("{text}\r")),
        // Only where the time is not taken by the stopwatch here.
        (Some(text), _) if said.contains("[w] write a time") => {
            seat.press("w");
            seat.line("in s:", text);
        }
        (Some(text), _) => seat.press(digit(&said, text)),
        (None, Some("again")) => {
            seat.press("t");
            seat.line("What was done about it?", answer.reason.as_deref().expect("a reason"));
        }
        (None, Some(act)) => seat.press(key(act)),
        (None, None) => panic!("an answer says what is entered or done"),
    }
}

fn key(act: &str) -> &'static str {
    match act {
        "acknowledge" => "a",
        "true" | "good" | "complete" => "y",
        "done" => "d",
        "close" => "e",
        other => panic!("{other} is not among the answers of the example"),
    }
}

fn digit(said: &str, choice: &str) -> &'static str {
    let digits = ["1", "2", "3", "4", "5", "6", "7", "8", "9"];
    let offered = digits.iter().find(|digit| said.contains(&format!("[{digit}] {choice}")));
    offered.unwrap_or_else(|| panic!("{choice} is not offered: {said}"))
}

/// What must never scroll away, on the real screen: what came last, where we are, what protects, what is next, the
/// prompt; and all of a hazard that is asked about.
fn is_whole(seat: &Seat, said: &str) {
    let screen = words_of(&seat.pty.screen_text());
    let asked = if said.contains("Read and understood?") { asked_about(said) } else { None };
    let frame = [" | In force: ", "Last: "].iter().filter_map(|mark| said.rfind(mark)).min();
    let last = asked.or(frame).map_or("", |from| &said[from..]);
    assert!(
        screen.ends_with(last),
        "the screen does not end with\n{last}\nbut is\n{}",
        seat.pty.screen_text()
    );
}

/// What was read in a section is not told again; of a hazard its name is enough.
fn is_told_once(at: &str, said: &str) {
    if ["reverse_look", "normal_look"].contains(&at) {
        assert!(!said.contains("rinse 15 minutes") && !said.contains("Reverse first:"), "{said}");
    }
}

/// Where the hazard begins that stands nearest above the place; what is read already has only its name left.
fn asked_about(said: &str) -> Option<usize> {
    ["DANGER ", "WARNING "].iter().filter_map(|signal| said.rfind(signal)).max()
}

#[test]
fn the_whole_flush_at_80_columns() {
    let stage = walk(Speech::Colour, (80, 24));
    let scripted = flush_with_short_waits();
    let run = ["run", "cooler-line-flush.md", "--vehicle", "vehicle-example.toml"];
    let answered = scripted.bayhand(&[&run[..], &["--answers", "answers-example.toml"]].concat());
    assert_eq!(answered.code, Some(0), "{}", answered.err);
    assert_eq!(
        stage.events()[1..],
        scripted.events()[1..],
        "the terminal and the file of answers record the same"
    );
}

#[test]
fn the_whole_flush_at_40_columns_without_colour() {
    walk(Speech::NoColour, (40, 24));
}

#[test]
fn the_whole_flush_at_40_columns_and_14_rows() {
    walk(Speech::Colour, (40, 14));
}
