//! A program with nothing but prompts: the tests start it at a pseudo-terminal and type.
//!
//! `terminal_driver SCENE [--plain]`; it ends with exit code 0, or 3 when nobody is there any more.

#![expect(clippy::disallowed_methods, reason = "a program of its own: it reads its own surroundings")]
#![expect(clippy::panic, reason = "one scene is a fault of the program")]

use std::cell::Cell;
use std::io::{self, IsTerminal};
use std::process::ExitCode;
use std::rc::Rc;
use std::time::{Duration, Instant};

use bayhand::terminal::{
    Bell, Entry, Facts, Fell, Gauge, Guard, Heard, KeyHint, KeyKind, Line, Mark, Reminder, Role, Stream,
    Text, Timing, Ui, Wait, Wish, choose, is_gone, open,
};

const FAREWELL: &str = "Stopped. Everything entered is kept; the same command goes on.";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let scene = arguments.first().map_or("", String::as_str);
    match run(scene, wish(&arguments)) {
        Ok(Heard::Gone) => ExitCode::from(3),
        Ok(_) => ExitCode::SUCCESS,
        Err(error) if is_gone(&error) => ExitCode::from(3),
        Err(_) => ExitCode::from(4),
    }
}

fn run(scene: &str, wish: Wish) -> io::Result<Heard> {
    let manner = choose(&facts(wish));
    let _guard = Guard::start(manner, Text::plain(FAREWELL))?;
    let mut ui = open(manner, Bell::Rings)?;
    let heard = play(scene, ui.as_mut())?;
    if heard != Heard::Gone {
        ui.say(&Text::plain(&format!("heard: {heard:?}")))?;
    }
    Ok(heard)
}

fn play(scene: &str, ui: &mut dyn Ui) -> io::Result<Heard> {
    match scene {
        "key" => ui.ask_key("Is the selector in P?", &keys()),
        "choice-and-key" => play("choice", ui).and_then(|_| play("one-key", ui)),
        "one-key" => ui.ask_key("Is the selector in P?", &[KeyHint::new('y', "yes")]),
        "text" => ui.ask_text("Pan temperature, °C", Entry::Main),
        "aside" => ui.ask_text("Why later?", Entry::Aside),
        "weighed" => weighed(ui),
        "weighed-line" => play("one-key", ui).and_then(|_| ui.ask_text("Released by", Entry::Weighed)),
        "choice" => {
            ui.ask_choice("Which fluid is on the cloth?", &items(&["clear red", "dark red", "black"]), 1)
        }
        "high-choice" => {
            let items: Vec<String> = (1..=40).map(|number| format!("item {number}")).collect();
            ui.ask_choice("Which one?", &items, 0)
        }
        "long-choice" => ui.ask_choice("Which one?", &items(&["red", &"burnt and black ".repeat(9)]), 0),
        "wait" => wait(ui, Duration::from_secs(600)),
        "short-wait" => wait(ui, Duration::from_millis(600)),
        "say" => ui.say(&sample()).map(|()| Heard::Elapsed),
        "hostile" => hostile(ui),
        "screens" => screens(ui),
        "busy" => busy(ui),
        "fault" => fault(ui),
        "key-then-key" => then(ui, "one-enter"),
        "key-then-choice" => then(ui, "choice"),
        "key-then-wait" => then(ui, "wait"),
        "key-then-time" => then(ui, "time"),
        "line-then-choice" => play("text", ui).and_then(|_| play("choice", ui)),
        "one-enter" => ui.ask_key("The second question.", &[KeyHint::new('\n', "go on")]),
        "time" => time(ui),
        "due-key" => due(ui, "key"),
        "due-text" => due(ui, "text"),
        "due-choice" => due(ui, "choice"),
        "due-wait" => due(ui, "wait"),
        "due-time" => due(ui, "time"),
        _ => Err(io::Error::other("no such scene")),
    }
}

/// A question for a key, then something else.
fn then(ui: &mut dyn Ui, scene: &str) -> io::Result<Heard> {
    ui.ask_key("The first question.", &[KeyHint::new('\n', "go on")])?;
    play(scene, ui)
}

/// Something at which a wait ends that was begun before.
fn due(ui: &mut dyn Ui, scene: &str) -> io::Result<Heard> {
    let start = Instant::now();
    let line = Line::plain("DUE: the fluid has settled");
    ui.remind(Rc::new(move || start.elapsed()), vec![Reminder { after: Duration::from_millis(700), line }]);
    play(scene, ui)
}

/// Four questions that weigh something, one after the other: how many were answered before somebody left.
fn weighed(ui: &mut dyn Ui) -> io::Result<Heard> {
    let keys = [KeyHint::new('y', "yes").being(KeyKind::Weighed), KeyHint::common('!', "stop the job")];
    for question in 1..=4 {
        match ui.ask_key(&format!("Question {question}."), &keys)? {
            Heard::Key('y') => {}
            other => return Ok(other),
        }
    }
    Ok(Heard::Elapsed)
}

fn time(ui: &mut dyn Ui) -> io::Result<Heard> {
    let start = Instant::now();
    let heard = ui.time(&Timing { label: "From the shift to the bite", ticks: &|| start.elapsed() })?;
    // How long it took is the machine's matter.
    Ok(if matches!(heard, Heard::Timed(_)) { Heard::Elapsed } else { heard })
}

fn wait(ui: &mut dyn Ui, total: Duration) -> io::Result<Heard> {
    let start = Instant::now();
    ui.wait(&Wait { label: "The fluid settles", total, elapsed: &|| start.elapsed(), over_at: "21:40" })
}

/// Every role, a list item longer than any row, and gauges.
fn sample() -> Text {
    let item = "Lower the transmission by the width of a hand, look at all hoses and cables, then go on.";
    let gauge = Gauge::new(Mark::new(52.2, "52.2"), Fell::Inside);
    let gauge =
        gauge.lower(Mark::new(45.0, "45")).upper(Mark::new(55.0, "55")).distance("2.8 below the maximum");
    signal_words().line(Line::marked("12.", item)).gauge(gauge).line(Line::plain("end of sample"))
}

fn signal_words() -> Text {
    let roles = [
        (Role::Danger, "DANGER"),
        (Role::Warning, "WARNING"),
        (Role::Caution, "CAUTION"),
        (Role::Notice, "NOTICE"),
        (Role::Protection, "IN FORCE"),
        (Role::Good, "pass"),
        (Role::Bad, "fail"),
        (Role::Faint, "next"),
    ];
    roles.into_iter().fold(Text::new(), |text, (role, words)| text.line(Line::new().with(role, words)))
}

/// Text that tries to clear the screen, to ring, to hide and to turn itself round; in every place text can go.
fn hostile(ui: &mut dyn Ui) -> io::Result<Heard> {
    let bad = "a\u{1b}[2Jb\u{7}c\u{202e}d\u{9b}31me";
    ui.say(&Text::plain(bad))?;
    ui.ask_key(bad, &[KeyHint::new('y', bad)])?;
    ui.ask_choice(bad, &items(&[bad, "second"]), 0)?;
    ui.ask_text(bad, Entry::Main)
}

fn screens(ui: &mut dyn Ui) -> io::Result<Heard> {
    ui.say(&Text::plain("first screen"))?;
    ui.ask_key("go on", &[KeyHint::new('\n', "go on")])?;
    ui.clear_for_screen()?;
    ui.say(&Text::plain("second screen"))?;
    ui.ask_key("go on", &[KeyHint::new('\n', "go on")])
}

/// Works without a prompt, for ever as far as a test can tell.
fn busy(ui: &mut dyn Ui) -> io::Result<Heard> {
    ui.say(&Text::plain("working"))?;
    let turns = Cell::new(0);
    while turns.get() < 600 {
        std::thread::sleep(Duration::from_millis(100));
        turns.set(turns.get() + 1);
    }
    Ok(Heard::Elapsed)
}

/// The exit code of a fault.
const ABORTED: i32 = 134;

/// Ends the program while a fault is being unwound: the program as it is handed out unwinds nothing.
struct NoUnwinding;

impl Drop for NoUnwinding {
    fn drop(&mut self) {
        std::process::exit(ABORTED);
    }
}

/// A fault of the program, in the middle of a wait.
fn fault(ui: &mut dyn Ui) -> io::Result<Heard> {
    let start = Instant::now();
    let elapsed = || {
        let elapsed = start.elapsed();
        if elapsed > Duration::from_millis(300) {
            let _end = NoUnwinding;
            panic!("a fault");
        }
        elapsed
    };
    let total = Duration::from_secs(600);
    ui.wait(&Wait { label: "The fluid settles", total, elapsed: &elapsed, over_at: "21:40" })
}

fn keys() -> [KeyHint; 4] {
    [
        KeyHint::new('y', "yes"),
        KeyHint::new('n', "no"),
        KeyHint::new('?', "why this is asked"),
        KeyHint::new('\n', "go on"),
    ]
}

fn items(words: &[&str]) -> Vec<String> {
    words.iter().map(ToString::to_string).collect()
}

fn wish(arguments: &[String]) -> Wish {
    if arguments.iter().any(|argument| argument == "--plain") { Wish::Plain } else { Wish::Any }
}

fn facts(wish: Wish) -> Facts {
    Facts {
        stdin: stream(&io::stdin()),
        stdout: stream(&io::stdout()),
        stderr: stream(&io::stderr()),
        term: std::env::var("TERM").ok(),
        no_color: std::env::var("NO_COLOR").ok(),
        wish,
    }
}

fn stream(of: &impl IsTerminal) -> Stream {
    if of.is_terminal() { Stream::Terminal } else { Stream::Other }
}
