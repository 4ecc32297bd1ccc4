//! Linear output: lines in, lines out.

use std::cell::Cell;
use std::io;
use std::time::Duration;

use bayhand::terminal::{Entry, Heard, KeyHint, Line, Plain, Role, Text, Ui, Wait};

/// What was heard and what was written, given these lines of input.
fn talk(input: &str, speak: impl FnOnce(&mut dyn Ui) -> io::Result<Heard>) -> (Heard, String) {
    let mut ui = Plain::new(io::Cursor::new(input.to_owned()), Vec::new()).wrapped_to(40);
    let heard = speak(&mut ui).expect("nothing fails");
    (heard, String::from_utf8(ui.into_output()).expect("UTF-8"))
}

fn keys() -> [KeyHint; 3] {
    [KeyHint::new('y', "yes"), KeyHint::new('n', "not yet"), KeyHint::new('\n', "go on")]
}

fn ask(input: &str) -> (Heard, String) {
    talk(input, |ui| ui.ask_key("Is it cold?", &keys()))
}

#[test]
fn a_key_is_a_line_with_the_key_its_name_or_its_words() {
    for (line, key) in [("y", 'y'), ("Y", 'y'), (" n ", 'n'), ("Not yet", 'n'), ("", '\n'), ("enter", '\n')] {
        assert_eq!(ask(&format!("{line}\n")).0, Heard::Key(key), "{line:?}");
    }
}

#[test]
fn another_line_is_answered_with_the_list() {
    let (heard, out) = ask("maybe\u{1b}\ny\n");
    assert_eq!(heard, Heard::Key('y'));
    let keys = "[y] yes  [n] not yet  [Enter] go on\n";
    assert_eq!(out, format!("Is it cold?\n{keys}`maybe␛` is not asked for here. These\nare:\n{keys}"));
}

#[test]
fn the_end_of_the_input_means_that_nobody_is_there() {
    assert_eq!(ask("").0, Heard::Gone);
    assert_eq!(ask("maybe").0, Heard::Gone);
    assert_eq!(talk("", |ui| ui.ask_text("Temperature", Entry::Main)).0, Heard::Gone);
    assert_eq!(talk("", |ui| ui.ask_choice("Which?", &["a".into()], 0)).0, Heard::Gone);
    assert_eq!(talk("", |ui| ui.wait(&endless())).0, Heard::Gone);
}

#[test]
fn a_text_is_given_as_typed() {
    let (heard, out) = talk(" 5 1/2 qt \r\n", |ui| ui.ask_text("Put in", Entry::Main));
    assert_eq!((heard, out.as_str()), (Heard::Text(" 5 1/2 qt ".into()), "Put in\n"));
    let escape = talk("\u{1b}\n", |ui| ui.ask_text("Put in", Entry::Aside)).0;
    assert_eq!(escape, Heard::Text(String::new()), "Escape alone is as good as an empty line");
}

#[test]
fn a_choice_is_a_numbered_list() {
    let items = ["clear".to_owned(), "dark\nred".into()];
    let (heard, out) = talk("7\n2\n", |ui| ui.ask_choice("Fluid?", &items, 0));
    assert_eq!(heard, Heard::Chosen(1));
    let list = "Fluid?\n  1. clear\n  2. dark red\nType a number; Enter alone goes back.\n";
    assert_eq!(out, format!("{list}`7` is none of them. Type a number from\n1 to 2.\n"));
    assert_eq!(talk("clear\n", |ui| ui.ask_choice("Fluid?", &items, 0)).0, Heard::Chosen(0));
    assert_eq!(talk("0\n9\n", |ui| ui.ask_choice("Fluid?", &items, 0)).0, Heard::Gone);
    let (heard, out) = talk("\n", |ui| ui.ask_choice("Fluid?", &items, 0));
    assert_eq!(heard, Heard::Interrupt);
    assert!(out.ends_with("Type a number; Enter alone goes back.\n"), "{out}");
}

#[test]
fn the_words_of_an_item_count_before_its_number() {
    let items = ["3".to_owned(), "2".into(), "1".into()];
    assert_eq!(talk("1\n", |ui| ui.ask_choice("Marks?", &items, 0)).0, Heard::Chosen(2));
}

#[test]
fn a_choice_among_nothing_is_refused() {
    let mut ui = Plain::new(io::empty(), Vec::new());
    let error = ui.ask_choice("Which?", &[], 0).expect_err("nothing to choose from");
    assert_eq!(error.kind(), io::ErrorKind::InvalidInput);
}

fn endless() -> Wait<'static> {
    Wait {
        label: "Fluid settles",
        total: Duration::from_secs(754),
        elapsed: &|| Duration::ZERO,
        over_at: "21:40",
    }
}

#[test]
fn a_wait_is_one_line_and_a_line_interrupts_it() {
    let (heard, out) = talk("s\n", |ui| ui.wait(&endless()));
    assert_eq!(heard, Heard::Key('s'));
    assert_eq!(
        out,
        "Fluid settles: 12 min 34 s left, over at\n21:40. Enter does something else\nmeanwhile.\n"
    );
    assert_eq!(talk("\n", |ui| ui.wait(&endless())).0, Heard::Key('\n'));
}

#[test]
fn a_wait_ends_when_its_time_is_gone() {
    struct Silence;
    impl bayhand::terminal::Lines for Silence {
        fn next_line(&mut self) -> io::Result<Option<String>> {
            panic!("nothing is ready to be read")
        }
        fn is_ready(&mut self, _within: Duration) -> io::Result<bool> {
            Ok(false)
        }
    }
    let looks = Cell::new(0);
    let elapsed = || {
        looks.set(looks.get() + 1);
        Duration::from_secs(looks.get())
    };
    let mut ui = Plain::new(Silence, Vec::new());
    let wait = Wait { label: "Settles", total: Duration::from_secs(20), elapsed: &elapsed, over_at: "21:40" };
    assert_eq!(ui.wait(&wait).expect("nothing fails"), Heard::Elapsed);
    assert!((20..=21).contains(&looks.get()), "{} looks at the clock", looks.get());
}

#[test]
fn a_closed_pipe_means_that_nobody_is_there() {
    struct Closed;
    impl io::Write for Closed {
        fn write(&mut self, _: &[u8]) -> io::Result<usize> {
            Err(io::ErrorKind::BrokenPipe.into())
        }
        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }
    let mut ui = Plain::new(io::Cursor::new("y\n"), Closed);
    assert_eq!(ui.ask_key("Is it cold?", &keys()).expect("it is heard"), Heard::Gone);
    let error = ui.say(&Text::plain("words")).expect_err("the pipe is closed");
    assert!(bayhand::terminal::is_gone(&error));
}

#[test]
fn a_line_without_end_is_refused_and_not_kept_in_memory() {
    let input = io::BufReader::new(io::repeat(b'a'));
    let error = Plain::new(input, Vec::new()).ask_text("Temperature", Entry::Main).expect_err("too long");
    assert_eq!(error.kind(), io::ErrorKind::FileTooLarge);
}

#[test]
fn a_line_that_is_no_text_or_too_long_is_refused_and_asked_again() {
    let long = "9".repeat(100_000);
    for (line, why) in [
        (&b"28\xff.4"[..], "not UTF-8 text from its byte 3 on"),
        (b"\xc3", "not UTF-8 text from its byte 1 on"),
        (long.as_bytes(), "longer than 65536 bytes"),
    ] {
        let input = [line, b"\n29 C\n"].concat();
        let mut ui = Plain::new(&input[..], Vec::new()).wrapped_to(100);
        let heard = ui.ask_text("Temperature", Entry::Main).expect("nothing fails");
        assert_eq!(heard, Heard::Text("29 C".into()));
        let out = String::from_utf8(ui.into_output()).expect("text");
        assert!(out.contains("Nothing of that is taken") && out.contains(why), "{out}");
        let input = [line, b"\ny\n"].concat();
        let mut ui = Plain::new(&input[..], Vec::new());
        assert_eq!(ui.ask_key("Is it cold?", &keys()).expect("nothing fails"), Heard::Key('y'));
        let mut ui = Plain::new(line, Vec::new());
        assert_eq!(ui.ask_text("Temperature", Entry::Main).expect("nothing fails"), Heard::Gone, "only that");
    }
}

#[test]
fn no_attribute_is_written() {
    let line = Line::new().with(Role::Danger, "DANGER").with(Role::Plain, " hot");
    let (_, out) = talk("", |ui| ui.say(&line.into()).map(|()| Heard::Gone));
    assert_eq!(out, "DANGER hot\n");
}
