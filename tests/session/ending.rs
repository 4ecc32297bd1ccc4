//! However a sitting ends, the terminal is as it was found, a line says how to go on, and going on loses nothing.
//!
//! Exit codes: 128 and the number of the signal, as POSIX shells report it (SIGHUP 1, SIGINT 2, SIGTERM 15).

use nix::sys::signal::Signal;

use super::seat::{Seat, Speech};
use super::stage::{Stage, words_of};
use super::walk;

const FAREWELL: &str = "Everything answered is kept. `bayhand run";

/// The settings of a terminal that nobody has touched.
fn untouched(stage: &Stage) -> String {
    let mut seat = Seat::take(stage, Speech::Colour, 80, &["runs"]);
    assert_eq!(seat.pty.exit_code(), 0);
    seat.pty.settings()
}

fn is_as_found(stage: &Stage, seat: &Seat) {
    assert_eq!(seat.pty.settings(), untouched(stage));
    assert!(!seat.pty.screen(vt100::Screen::hide_cursor), "the cursor is shown");
    assert!(!seat.pty.screen(vt100::Screen::bracketed_paste), "bracketed paste is off");
}

/// A prompt for a line, one for a key, a list and a wait.
fn prompts() -> [fn(&mut Seat); 4] {
    [
        |seat| seat.reads("Odometer, in km or with its unit: >"),
        |seat| seat.reads("1.2 Open the tap."),
        |seat| {
            seat.key("1.2 Open the tap.", "d");
            seat.line("in psi:", "31");
            seat.key("[c] correct a wrong entry", "g");
            seat.reads("Disposition");
        },
        |seat| {
            walk::measure(seat);
            seat.sees("left, over at");
        },
    ]
}

fn at_prompt(stage: &Stage, place: usize) -> Seat {
    let mut seat = Seat::at_small_procedure(stage, Speech::Colour, 80);
    if place == 0 {
        seat.line("Name of the lead", "Robin Vale");
        seat.line("Name of the helper", "Sam Hollis");
    } else {
        walk::begin(&mut seat);
        walk::support(&mut seat);
    }
    prompts()[place](&mut seat);
    seat
}

/// The same command goes on: the brief, then the same journal and one more line.
fn goes_on(stage: &Stage, before: &[String]) {
    let seat = Seat::at_small_procedure(stage, Speech::Colour, 80);
    let (said, _) = seat.question();
    assert!(said.contains("goes on."), "{said}");
    let after = stage.journal_lines();
    assert_eq!(after[..before.len()], *before);
    assert_eq!(stage.kinds().last().map(String::as_str), Some("resumed"));
    assert_eq!(after.len(), before.len() + 1);
}

/// What holds while nobody is there, and how to go on.
fn says_what_stays(seat: &Seat, place: usize) {
    seat.sees(FAREWELL);
    seat.sees(if place == 0 { "In force: no protection" } else { "In force: vehicle on stands (since" });
}

#[test]
fn a_signal_at_any_prompt() {
    let signals = [(Signal::SIGINT, 130), (Signal::SIGTERM, 143), (Signal::SIGHUP, 129)];
    for place in 0..prompts().len() {
        let (signal, code) = signals[place % 3];
        let stage = Stage::with_small_procedure();
        let mut seat = at_prompt(&stage, place);
        let before = stage.journal_lines();
        seat.pty.signal(signal);
        assert_eq!(seat.pty.exit_code(), code, "{signal} at prompt {place}");
        says_what_stays(&seat, place);
        is_as_found(&stage, &seat);
        goes_on(&stage, &before);
    }
}

#[test]
fn ctrl_c_and_the_end_of_the_input_at_a_prompt() {
    for (place, key, code) in
        [(0, "\u{3}", 130), (1, "\u{3}", 130), (3, "\u{3}", 130), (0, "\u{4}", 5), (1, "\u{4}", 5)]
    {
        let stage = Stage::with_small_procedure();
        let mut seat = at_prompt(&stage, place);
        let before = stage.journal_lines();
        seat.types(key);
        assert_eq!(seat.pty.exit_code(), code, "{key:?} at prompt {place}");
        says_what_stays(&seat, place);
        is_as_found(&stage, &seat);
        goes_on(&stage, &before);
    }
}

#[test]
fn ctrl_c_in_a_question_within_a_question_goes_back_to_the_outer_one() {
    let stage = Stage::with_small_procedure();
    let mut seat = at_prompt(&stage, 2);
    seat.types("\u{3}");
    seat.reads("[g] go on with a deviation");
    seat.types("\u{3}");
    assert_eq!(seat.pty.exit_code(), 130);
    is_as_found(&stage, &seat);
}

#[test]
fn a_real_hang_up() {
    let stage = Stage::with_small_procedure();
    let mut seat = at_prompt(&stage, 1);
    let before = stage.journal_lines();
    seat.pty.hang_up("k");
    // Whether the signal or the end of the input comes first is not ours to say.
    let code = seat.pty.exit_code();
    assert!([129, 5].contains(&code), "{code}");
    goes_on(&stage, &before);
}

#[test]
fn no_terminal_at_all() {
    let stage = Stage::with_small_procedure();
    let run = ["run", "bleed.md", "--vehicle", "vehicle.toml"];
    let ended = stage.bayhand_fed(&run, "Robin Vale\n");
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    assert!(words_of(&ended.err).contains("goes on with it"), "{}", ended.err);
    assert!(!ended.out.contains('\u{1b}') && !ended.err.contains('\u{1b}'));
    let ended = stage.bayhand_fed(&run, "y\nSam Hollis\n187400 km\n");
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    assert_eq!(stage.kinds(), ["started", "person", "resumed", "brief_read", "person", "odometer"]);
    let mut child = stage
        .command(&run)
        .stdin(std::process::Stdio::null())
        .stdout(std::process::Stdio::null())
        .spawn()
        .expect("bayhand starts");
    assert_eq!(child.wait().expect("it ends").code(), Some(5));
}
