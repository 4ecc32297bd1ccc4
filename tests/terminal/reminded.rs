//! A wait that ends while something else is on the screen is told there, and what is on the screen stays.

use super::pty::Pty;
use super::stage::scene;

const DUE: &str = "DUE: the fluid has settled";

/// Waits for the end of the wait; it is told once.
fn is_told(pty: &Pty) {
    pty.until_text(DUE);
    assert_eq!(pty.screen_text().matches(DUE).count(), 1, "{}", pty.screen_text());
}

#[test]
fn at_a_question_for_a_key() {
    let mut pty = scene("due-key");
    pty.until_text("[Enter] go on");
    is_told(&pty);
    pty.type_keys("y");
    pty.until_text("heard: Key('y')");
}

#[test]
fn in_the_middle_of_a_line() {
    let mut pty = scene("due-text");
    pty.until(|screen| screen.contents().trim_end().ends_with('>'));
    pty.type_keys("72.");
    pty.until_text("> 72.");
    is_told(&pty);
    pty.until(|screen| screen.contents().trim_end().ends_with("> 72."));
    pty.type_keys("8\r");
    pty.until_text("heard: Text(\"72.8\")");
    assert_eq!(pty.screen_text().matches(DUE).count(), 1, "{}", pty.screen_text());
}

#[test]
fn above_a_list_in_which_somebody_moves() {
    let mut pty = scene("due-choice");
    pty.until_text("> dark red");
    pty.type_keys("\u{1b}[B");
    pty.until_text("> black");
    is_told(&pty);
    pty.until(|screen| screen.contents().trim_end().ends_with("> black"));
    assert_eq!(pty.screen_text().matches("clear red").count(), 1, "{}", pty.screen_text());
    pty.type_keys("\u{1b}[A\r");
    pty.until_text("heard: Chosen(1)");
}

#[test]
fn above_the_bar_of_another_wait() {
    let mut pty = scene("due-wait");
    pty.until_text("left, over at 21:40");
    is_told(&pty);
    pty.until_text("left, over at 21:40");
    pty.type_keys("s");
    pty.until_text("heard: Key('s')");
}

#[test]
fn above_the_stopwatch() {
    let mut pty = scene("due-time");
    pty.until_text("The stopwatch runs.");
    is_told(&pty);
    pty.type_keys("x");
    pty.until_text("heard: Elapsed");
}
