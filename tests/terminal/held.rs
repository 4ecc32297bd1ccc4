//! A key that is held down settles one thing, whatever comes after it.

use super::pty::Pty;
use super::stage::scene;

/// Settles the first question with Enter and goes on holding it while the next thing is there.
fn held_on(name: &str, first: &str, next: &str) -> Pty {
    // A machine that was busy with something else has let the key go.
    for _ in 0..20 {
        let mut pty = scene(name);
        pty.until_text(first);
        pty.type_keys("\r");
        pty.until_text(next);
        if pty.hold("\r").is_some() {
            return pty;
        }
    }
    panic!("this machine is too slow to hold a key down");
}

/// It is still asked; the same key, pressed anew, is an answer.
fn counts_once(mut pty: Pty, next: &str, heard: &str) {
    assert!(pty.screen_text().contains(next), "{}", pty.screen_text());
    assert!(!pty.screen_text().contains("heard"), "{}", pty.screen_text());
    std::thread::sleep(std::time::Duration::from_millis(500));
    pty.type_keys("\r");
    pty.until_text(heard);
}

#[test]
fn a_key_after_a_key() {
    counts_once(held_on("key-then-key", "first", "The second question."), "The second", "heard: Key('\\n')");
}

#[test]
fn a_list_after_a_key() {
    counts_once(held_on("key-then-choice", "first", "> dark red"), "> dark red", "heard: Chosen(1)");
}

#[test]
fn a_list_after_a_line() {
    counts_once(held_on("line-then-choice", "> ", "> dark red"), "> dark red", "heard: Chosen(1)");
}

#[test]
fn a_wait_after_a_key() {
    counts_once(held_on("key-then-wait", "first", "left, over at"), "left, over at", "heard: Key('\\n')");
}

#[test]
fn the_stopwatch_is_not_stopped_by_the_key_that_starts_it() {
    counts_once(held_on("key-then-time", "first", "The stopwatch runs."), "stopwatch runs", "heard: Elapsed");
}

/// Thirty times a second, as a keyboard repeats a key: of four questions that weigh something one is answered.
#[test]
fn what_weighs_something_is_not_pressed_through() {
    for _ in 0..20 {
        let mut pty = scene("weighed");
        pty.until_text("Question 1.");
        std::thread::sleep(std::time::Duration::from_millis(500));
        if pty.hold("y").is_none() {
            continue;
        }
        let screen = pty.screen_text();
        assert!(screen.contains("Question 2.") && !screen.contains("Question 3."), "{screen}");
        return;
    }
    panic!("this machine is too slow to hold a key down");
}

/// Different keys in a row are no answers either; the key that stops the job is one at once.
#[test]
fn a_burst_of_keys_is_no_answer_to_what_weighs_something() {
    let mut pty = scene("weighed");
    pty.until_text("Question 1.");
    pty.type_keys("ny");
    pty.until_text("Read it first");
    pty.type_keys("y");
    std::thread::sleep(std::time::Duration::from_millis(500));
    assert!(!pty.screen_text().contains("Question 2."), "{}", pty.screen_text());
    pty.type_keys("y");
    pty.until_text("Question 2.");
    pty.type_keys("!");
    pty.until_text("heard: Key('!')");
}

#[test]
fn a_burst_is_not_typed_into_a_line_that_weighs_something() {
    let mut pty = scene("weighed-line");
    pty.until_text("[y] yes");
    pty.type_keys("yyyyyyyy");
    pty.until_text("> ");
    pty.type_keys("RV\r");
    pty.until_text("heard: Text(\"RV\")");
}
