//! However it ends, the terminal comes back as it was found.
//!
//! Exit codes: 128 and the number of the signal, as POSIX shells report it (SIGHUP 1, SIGINT 2, SIGTERM 15).

use std::io::Read;
use std::process::{Command, Stdio};

use nix::sys::signal::Signal;

use super::pty::Pty;
use super::stage::{driver, piped, scene};

/// A scene, what its screen shows when it is ready, and the settings of the terminal as the program found them.
fn ready(name: &str, shows: &str) -> Pty {
    let pty = scene(name);
    pty.until_text(shows);
    pty
}

/// The settings of a terminal that nobody has touched.
fn untouched() -> String {
    let mut pty = scene("say");
    pty.until_text("heard");
    pty.exit_code();
    pty.settings()
}

fn is_as_found(pty: &Pty) {
    assert_eq!(pty.settings(), untouched());
    assert!(!pty.screen(vt100::Screen::hide_cursor), "the cursor is shown");
    assert!(!pty.screen(vt100::Screen::bracketed_paste), "bracketed paste is off");
}

const PROMPTS: [(&str, &str); 4] =
    [("key", "[y] yes"), ("text", "> "), ("choice", "> dark red"), ("wait", "left, over at")];

#[test]
fn ctrl_c_at_a_prompt_is_an_answer() {
    for (name, shows) in PROMPTS {
        let mut pty = ready(name, shows);
        pty.type_keys("\u{3}");
        pty.until_text("heard: Interrupt");
        assert_eq!(pty.exit_code(), 0, "{name}");
        is_as_found(&pty);
    }
}

#[test]
fn an_interrupted_choice_shows_the_cursor_again_while_the_run_goes_on() {
    let mut pty = ready("choice-and-key", "> dark red");
    assert!(pty.screen(vt100::Screen::hide_cursor));
    pty.type_keys("\u{3}");
    pty.until_text("[y] yes");
    assert!(!pty.screen(vt100::Screen::hide_cursor));
}

#[test]
fn ctrl_c_between_prompts_ends_with_a_farewell() {
    let mut pty = ready("busy", "working");
    pty.type_keys("\u{3}");
    pty.until_text("Stopped. Everything entered is kept; the same command goes on.");
    assert_eq!(pty.exit_code(), 130);
    is_as_found(&pty);
}

#[test]
fn a_signal_at_any_prompt_ends_with_a_farewell_and_a_terminal_as_found() {
    for (name, shows) in PROMPTS {
        for (signal, code) in [(Signal::SIGINT, 130), (Signal::SIGTERM, 143), (Signal::SIGHUP, 129)] {
            let mut pty = ready(name, shows);
            pty.signal(signal);
            assert_eq!(pty.exit_code(), code, "{name}, {signal}");
            pty.until_text("Everything entered is kept");
            is_as_found(&pty);
        }
    }
}

#[test]
fn a_fault_of_the_program_ends_with_a_farewell_and_a_terminal_as_found() {
    let mut pty = ready("fault", "left, over at");
    pty.until_text("Stopped. Everything entered is kept; the same command goes on.");
    pty.until_text("a fault");
    assert_eq!(pty.exit_code(), 134);
    is_as_found(&pty);
}

#[test]
fn a_real_hang_up_ends_it() {
    let mut pty = ready("one-key", "[y] yes");
    pty.hang_up("k");
    // Before it hangs up, the pseudo-terminal types Enter, which is not asked for here, and Ctrl-D. If that or
    // the end of the input is read before the signal arrives, nobody is there any more (3).
    let code = pty.exit_code();
    assert!([129, 3].contains(&code), "{code}");
}

#[test]
fn the_end_of_the_input_at_a_prompt_means_that_nobody_is_there() {
    for (name, shows) in [("key", "[y] yes"), ("text", "> "), ("wait", "left, over at")] {
        let mut pty = ready(name, shows);
        pty.type_keys("\u{4}");
        assert_eq!(pty.exit_code(), 3, "{name}");
        is_as_found(&pty);
    }
}

#[test]
fn a_closed_input_means_that_nobody_is_there() {
    for name in ["key", "text", "choice", "wait"] {
        assert_eq!(piped(name, "").status.code(), Some(3), "{name}");
    }
}

#[test]
fn a_closed_output_is_no_panic() {
    let mut command = Command::new(driver());
    command.arg("key").env_clear().stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().expect("the driver starts");
    let mut output = child.stdout.take().expect("its output");
    output.read_exact(&mut [0; 4]).expect("it asks");
    drop(output);
    // Each wrong line would be answered; the first answer finds the pipe closed.
    let _ = std::io::Write::write_all(&mut child.stdin.take().expect("its input"), b"maybe\nmaybe\n");
    let result = child.wait_with_output().expect("it ends");
    assert_eq!(result.status.code(), Some(3));
    assert_eq!(String::from_utf8_lossy(&result.stderr), "");
}
